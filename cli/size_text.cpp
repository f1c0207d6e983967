#include <algorithm>
#include <cmath>

#include <dampline/report/characters.hpp>
#include <dampline/units/text.hpp>

#include "size_answer.hpp"

namespace dampline::cli {
namespace {

using report::Align;
using report::padded;
using units::fixed;
using units::in_millimetres;

constexpr double worth_cutting = 0.1;  // %: less is not worth cutting a plate for

class Page {
 public:
  Page(const SizeAnswer& a, int columns) : a_(a), width_(std::clamp(columns, 60, 100)) {}

  std::string whole() {
    head();
    table(a_.answer.shown);
    if (a_.answer.other) other_grain();
    list("What to do", size::reasons(a_.printing, a_.answer));
    if (a_.printing.plates.size() > 1) {
      waits();
      moistures();
      order();
    }
    dried();
    for (const auto& t : a_.tissues) tissue(t);
    list("Firm", size::firm(a_.printing, a_.answer));
    list("Rough", size::rough(a_.printing, a_.answer));
    list("Mind", a_.warnings);
    list("Taken for granted", taken());
    return std::move(out_);
  }

 private:
  void say(const std::string& text, const std::string& first = "", const std::string& next = "") {
    const auto lines = report::wrap(text, width_ - report::display_width(first));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      out_ += (i == 0 ? first : next) + lines[i] + '\n';
    }
  }

  void list(const std::string& heading, const std::vector<std::string>& all) {
    if (all.empty()) return;
    out_ += '\n' + heading + '\n';
    for (const auto& one : all) say(one, "  - ", "    ");
  }

  static std::string centimetres(const size::Rectangle& r) {
    return fixed(100 * units::in_si(r.long_side), 2) + " x " +
           fixed(100 * units::in_si(r.short_side), 2) + " cm";
  }

  void head() {
    const auto& p = a_.printing;
    say(report::clean(a_.title));
    const size::Rectangle sheet{p.sheet_long, p.sheet_short};
    say(p.stock.name + ", " + centimetres(sheet) + ", " + grain_words(p.grain) + "; " +
        fixed(units::in_celsius(p.room.temperature), 1) + " degC, " +
        fixed(p.room.humidity.percent(), 0) + " %");
    for (const auto& line : a_.treatment) say(line);
    if (p.plates.size() < 2) return;
    const auto room = size::room_for_drift(p.tolerance, p.placing);
    say(laying_words(p) + "; " + units::text(p.tolerance) + " is let pass, laying takes " +
        units::text(p.placing) + " of it and leaves " + units::text(room) +
        " for what the sheet does.");
  }

  void table(const size::Comparison& c) {
    out_ += '\n';
    if (c.grain != size::Grain::none) out_ += "with the " + grain_words(c.grain) + '\n';
    out_ += "                                damp  grown, %      out of register, mm   fits\n";
    out_ += "way and plate                    g/g  along across  worst  8 in 10 within    %\n";
    for (const auto& w : c.ways) {
      const std::string mark = w.way == a_.answer.best && c.ways.size() > 1 ? "*" : " ";
      out_ += mark + " " + size::title(w.way) + '\n';
      for (const auto& p : w.pulls) row(p);
    }
    if (c.ways.size() > 1) out_ += "* what fits most often, or as often with least to do\n";
  }

  void row(const size::PullAnswer& p) {
    out_ += "    " + padded(report::shortened(report::clean(p.plate), 26), 26) +
            padded(fixed(p.moisture.value.parts_of_one(), 2), 6, Align::right) +
            padded(fixed(p.along.value.percent(), 2), 7, Align::right) +
            padded(fixed(p.across.value.percent(), 2), 7, Align::right);
    if (p.later) {
      const auto& l = *p.later;
      out_ += padded(fixed(in_millimetres(l.worst.value), 2), 7, Align::right) +
              padded(fixed(in_millimetres(l.worst.low), 2) + "-" +
                         fixed(in_millimetres(l.worst.high), 2),
                     14, Align::right) +
              padded(fixed(l.within.percent(), 0), 7, Align::right);
    }
    out_ += '\n';
  }

  void other_grain() {
    if (a_.printing.plates.size() > 1) table(*a_.answer.other);
    std::vector<std::string> tests = size::grain_tests();
    tests.insert(tests.begin(),
                 "The grain is not known: the worse of the two stands first and is "
                 "used below. A minute finds it:");
    list("Grain", tests);
  }

  static std::string time(const std::optional<units::Duration>& t, double followed_hours) {
    if (!t) return "longer than " + units::text(units::hours(followed_hours));
    const double minutes = units::in_minutes(*t);
    if (minutes < 0.05) return "no time";
    if (minutes < 10) return fixed(minutes, 1) + " min";
    return units::text(units::minutes(std::floor(minutes)));
  }

  static std::string with_range(const size::AllowedWait& w, double followed_hours) {
    if (!w.value && !w.low) return time(w.value, followed_hours);
    return time(w.value, followed_hours) + " (" + time(w.low, followed_hours) + " to " +
           time(w.high, followed_hours) + ")";
  }

  void waits() {
    out_ += "\nHow long the sheet may wait, the press's stretch left out\n";
    for (const auto& w : a_.answer.shown.ways) {
      if (w.way == size::Way::dry) continue;
      for (const auto& p : w.pulls) {
        if (!p.later) continue;
        std::string text = size::title(w.way) + ", " + p.plate + ": ";
        text += w.way == size::Way::held ? "lifted open " : "on the bench ";
        text += with_range(p.later->bench, size::bench_hours);
        if (w.way != size::Way::held) {
          text += ", covered " + with_range(p.later->covered, size::covered_hours);
        }
        text += w.way == size::Way::dried ? ", from when it is ready" : ", from the first pull";
        say(text, "  - ", "    ");
      }
    }
  }

  [[nodiscard]] std::string difference(const std::optional<units::Moisture>& by,
                                       const char* word) const {
    if (!by) return std::string("however much ") + word;
    const double grams = by->parts_of_one() * units::in_grams(a_.answer.shown.dry_sheet);
    return fixed(by->percent(), 1) + " points " + word + " (" + fixed(grams, 1) + " g)";
  }

  void moistures() {
    out_ += "\nHow alike it must be damped: than at the first pull, this sheet may be\n";
    for (const auto& w : a_.answer.shown.ways) {
      // Held, it cannot be weighed; dry, it has the moisture of the room.
      if (w.way == size::Way::held || w.way == size::Way::dry) continue;
      for (const auto& p : w.pulls) {
        if (!p.later) continue;
        const auto& l = *p.later;
        const std::string text =
            !l.moisture ? "out at any moisture: the later plate must be cut to fit"
                        : difference(l.drier, "drier") + ", " + difference(l.wetter, "wetter");
        say(size::title(w.way) + ", " + p.plate + ": " + text, "  - ", "    ");
      }
    }
  }

  void order() {
    std::string names;
    bool as_given = true;
    for (std::size_t i = 0; i < a_.order.plates.size(); ++i) {
      names += (i == 0 ? "" : ", ") + a_.printing.plates[a_.order.plates[i]].name;
      as_given = as_given && a_.order.plates[i] == i;
    }
    list("Order of plates", {names + (as_given ? ", as you have it: " : " would drift less: ") +
                             a_.order.reason + "."});
  }

  void dried() {
    const auto* best = size::answer_for(a_.answer.shown, a_.answer.best);
    if (best == nullptr) return;
    const auto& f = best->finished;
    std::vector<std::string> lines{"The finished sheet measures " + centimetres(f.sheet) +
                                   "; for one of the size you have "
                                   "written, tear " +
                                   centimetres(f.tear) + "."};
    for (const auto& image : f.images) {
      lines.push_back(image.plate + ", a plate of " + centimetres(image.plate_size) + ", is " +
                      centimetres(image.dried) + " on the dried print.");
    }
    for (const auto& p : best->pulls) {
      if (!p.later || std::max(std::abs(p.later->scale.long_way.percent()),
                               std::abs(p.later->scale.short_way.percent())) < worth_cutting) {
        continue;
      }
      lines.push_back("A new " + p.plate + " cut to " +
                      fixed(100 + p.later->scale.long_way.percent(), 2) + " x " +
                      fixed(100 + p.later->scale.short_way.percent(), 2) +
                      " % would lie on the image of the expected sheet.");
    }
    if (a_.answer.other) {
      const auto* turned = size::answer_for(*a_.answer.other, a_.answer.best);
      for (const auto& image : turned->finished.images) {
        lines.push_back("Were the grain the other way, " + image.plate + " would be " +
                        centimetres(image.dried) + ".");
      }
    }
    list("On the dried print (" + size::title(best->way) + ")", lines);
  }

  void tissue(const TissueAnswer& t) {
    list(
        "Tissue for " + t.plate,
        {t.stock + ": cut it to " + centimetres(t.tissue.cut) + ", with its grain " +
             (t.tissue.with <= t.tissue.crossed ? "the way of the sheet's" : "across the sheet's") +
             "; pasted wet it is then the size of the plate.",
         "Drying, tissue and sheet shrink by amounts " +
             units::text(std::min(t.tissue.with, t.tissue.crossed)) + " apart so, and by " +
             units::text(std::max(t.tissue.with, t.tissue.crossed)) +
             " the other way: the more, the more it cockles."});
  }

  std::vector<std::string> taken() {
    auto lines = a_.defaults_used;
    const auto assumed = size::assumptions(a_.printing);
    lines.insert(lines.end(), assumed.begin(), assumed.end());
    return lines;
  }

  const SizeAnswer& a_;
  int width_;
  std::string out_;
};

}  // namespace

std::string size_text(const SizeAnswer& a, int columns, bool utf8) {
  auto out = Page(a, columns).whole();
  return utf8 ? out : report::ascii(out);
}

}  // namespace dampline::cli
