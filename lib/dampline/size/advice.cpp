#include <algorithm>
#include <cmath>

#include <dampline/size/advice.hpp>
#include <dampline/units/text.hpp>

namespace dampline::size {
namespace {

constexpr double alike_mm = 0.02;  // nearer than this two ways shift the image alike

std::string number(units::Length l) { return units::fixed(units::in_millimetres(l), 2); }
std::string mm(units::Length l) { return number(l) + " mm"; }
std::string percent(units::Chance c) { return units::fixed(c.percent(), 0) + " %"; }

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

// The misfit that is left when the press's assumed share is taken off, roughly.
bool press_is_most(const LaterPull& l) { return l.by_press > 0.5 * l.worst.value; }

std::string asks_of(Way way) {
  switch (way) {
    case Way::held:
      return "It asks for every plate to be inked before the first pull, and for a sheet and "
             "blankets long enough that the roller keeps hold of one end.";
    case Way::released:
      return "It asks for plastic over the sheet at once after each pull.";
    case Way::dried:
      return "It asks for a day or more between plates, and for the same water again: weigh a "
             "sheet at the first pull and damp to that weight.";
    case Way::dry:
      return "It asks for a later plate cut to the shrunken image.";
  }
  return {};
}

}  // namespace

const WayAnswer* answer_for(const Comparison& c, Way way) {
  for (const auto& w : c.ways) {
    if (w.way == way) return &w;
  }
  return nullptr;
}

const PullAnswer* worst_pull(const WayAnswer& w) {
  const PullAnswer* worst = nullptr;
  for (const auto& pull : w.pulls) {
    if (!pull.later) continue;
    if (worst == nullptr || pull.later->within < worst->later->within) worst = &pull;
  }
  return worst;
}

std::vector<std::string> reasons(const Printing& p, const Answer& a) {
  std::vector<std::string> out;
  const auto* best = answer_for(a.shown, a.best);
  if (best == nullptr || worst_pull(*best) == nullptr) {
    return {"One plate on a sheet has nothing to meet but its margins."};
  }
  const auto& pull = *worst_pull(*best);
  const auto& later = *pull.later;
  out.push_back(capital(title(a.best)) + ": " + percent(best->all) +
                " of prints with every plate in register; " + pull.plate + " is out by " +
                mm(later.worst.value) + " (" + number(later.worst.low) + " to " +
                number(later.worst.high) + ") at its worst corner laying left out.");
  out.push_back(asks_of(a.best));
  for (const auto& w : a.shown.ways) {
    if (w.way == a.best || worst_pull(w) == nullptr) continue;
    const auto& other = *worst_pull(w);
    const bool alike = std::abs(w.all.parts_of_one() - best->all.parts_of_one()) <= 0.03;
    out.push_back(capital(title(w.way)) + (alike ? " does as well: " : ": ") + percent(w.all) +
                  ", " + other.plate + " out by " + mm(other.later->worst.value) + ".");
  }
  const auto room = room_for_drift(p.tolerance, p.placing);
  if (!(units::in_si(room) > 0)) {
    out.push_back(
        "Laying alone takes the whole tolerance: better marks help more than any way of "
        "keeping the sheet.");
  }
  if (press_is_most(later) && !p.blank_pass) {
    out.push_back(
        "Most of it is the stretch by the press, which is assumed: a blank pass of each "
        "sheet first takes two thirds of that away (--blank-pass), laying the plate to "
        "the image instead of the sheet to marks some of it too (--lay plate).");
  }
  if (const auto* dry = answer_for(a.shown, Way::dry); dry != nullptr && a.best != Way::dry) {
    const auto& scaled = *worst_pull(*dry);
    out.push_back("Printed dry, " + scaled.plate + " would have to be cut to " +
                  units::fixed(100 + scaled.later->scale.long_way.percent(), 2) + " x " +
                  units::fixed(100 + scaled.later->scale.short_way.percent(), 2) +
                  " % (long side, short side) and would then fit " +
                  percent(scaled.later->within_scaled) + " of the time.");
  }
  return out;
}

std::vector<std::string> firm(const Printing& p, const Answer& a) {
  std::vector<std::string> out;
  if (p.plates.size() < 2) return out;
  const auto* best = answer_for(a.shown, a.best);
  for (const auto& w : a.shown.ways) {
    if (w.way == a.best || a.samples == 0) continue;
    const double apart = units::in_millimetres(worst_pull(w)->later->worst.value -
                                               worst_pull(*best)->later->worst.value);
    if (std::abs(apart) < alike_mm) {
      out.push_back(capital(title(a.best)) + " and " + title(w.way) + " move the image alike.");
    } else if (w.firmer.parts_of_one() >= 0.8) {
      out.push_back(capital(title(a.best)) + " moves the image less than " + title(w.way) + " on " +
                    units::fixed(w.firmer.percent(), 0) + " of 100 likely sheets.");
    }
  }
  out.push_back(
      "The sheet moves more across the grain than along it, less the wetter it is kept, "
      "and hardly at all above fibre saturation (about " +
      units::text(p.stock.fibre_full.value) + ").");
  return out;
}

std::vector<std::string> rough(const Printing& p, const Answer& a) {
  std::vector<std::string> out;
  const auto& first = a.shown.ways.front().pulls.front();
  const bool measured = p.beliefs.along || p.beliefs.across;
  std::string text = "How much this paper grows: " + units::fixed(first.across.value.percent(), 2) +
                     " % across the grain when first printed, " +
                     units::fixed(first.across.low.percent(), 2) + " to " +
                     units::fixed(first.across.high.percent(), 2) + " on eight sheets in ten";
  text += measured ? ", by your own marks."
                   : ". Two pencil marks a ruler apart, read dry and damp, would settle it "
                     "(--across \"dry 200 mm, damp 202.5 mm\").";
  out.push_back(std::move(text));
  if (p.plates.size() > 1) {
    out.push_back(
        "The millimetres and minutes above follow from that; trust the order of the ways "
        "more than the numbers.");
  }
  return out;
}

std::vector<std::string> assumptions(const Printing& p) {
  std::vector<std::string> out;
  out.push_back("a first pass through the press stretches a damp sheet by " +
                units::fixed(p.nip.percent(), 2) +
                " % in the direction of travel (0 to three "
                "times that), each later one by a third of it: assumed, no measurement was found");
  out.push_back(std::string("the sheet travels along its ") +
                (p.travel == Travel::along_long_side ? "long" : "short") + " side: assumed");
  if (p.blank_pass) out.push_back("each sheet has had a blank pass before its first plate");
  out.push_back("plates stand in the middle of the sheet, long side along long side: assumed");
  out.push_back(
      "laying errors are alike along both sides and do not turn the sheet; a sheet held "
      "in the press has half of them: assumed");
  if (p.drying == Drying::boards) {
    out.push_back("boards press on drying sheets with " + units::text(p.boards) +
                  " and hold back " + units::fixed(100 * restraint(p), 0) +
                  " % of the shrinking: assumed");
  }
  return out;
}

std::vector<std::string> grain_tests() {
  return {
      "Tear a strip from a spoilt sheet each way: along the grain the tear runs straight, "
      "across it wanders.",
      "Bend the sheet over without creasing it, each way: it gives more easily when the bend "
      "lies along the grain.",
      "Wet one face of a square with its sides marked: it rolls up, and the axis of the roll "
      "lies along the grain."};
}

}  // namespace dampline::size
