#include "sheet_answer.hpp"

#include <algorithm>
#include <cmath>

#include <dampline/report/characters.hpp>
#include <dampline/report/json.hpp>
#include <dampline/units/text.hpp>

#include "sheet_notes.hpp"

namespace dampline::cli {
namespace {

using units::fixed;

std::optional<double> minutes(const SheetAnswer& a, const std::optional<units::Duration>& t) {
  if (!t) return std::nullopt;
  return units::in_minutes(a.blotted + *t);
}

double celsius(const method::Sample& s) { return units::in_celsius(s.temperature); }

std::string clock(double minutes) {
  const auto whole = static_cast<int>(std::lround(minutes));
  if (whole < 60) return std::to_string(whole) + " min";
  const std::string rest = whole % 60 == 0 ? "" : " " + std::to_string(whole % 60) + " min";
  return std::to_string(whole / 60) + " h" + rest;
}

std::string right(const std::string& text, std::size_t width) {
  return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}

void stages_table(std::string& out, const SheetAnswer& a) {
  out += "after                    at  mean  surface  driest  film   sheet  along  across\n";
  out += "                            g/g      g/g     g/g  g/m2    degC      %       %\n";
  const auto row = [&](std::string name, const SheetMoment& m) {
    name.resize(16, ' ');
    const auto& s = m.sample;
    out += name + right(clock(units::in_minutes(s.at)), 11) +
           right(fixed(s.mean.parts_of_one(), 2), 6) +
           right(fixed(s.surface.parts_of_one(), 2), 9) +
           right(fixed(s.driest.parts_of_one(), 2), 8) +
           right(fixed(units::in_grams_per_m2(s.film), 0), 6) + right(fixed(celsius(s), 1), 8) +
           right(fixed(m.growth.along.percent(), 2), 7) +
           right(fixed(m.growth.across.percent(), 2), 8) + '\n';
  };
  row(a.drying ? "as printed" : "dry sheet", a.curve.front());
  for (std::size_t i = 0; i < a.stages.size(); ++i) row(a.stages[i].name, a.curve[a.stage_ends[i]]);
}

// "55 min (48 min to 1 h 5 min)"
std::string with_range(const SheetAnswer& a, const std::optional<units::Duration>& t,
                       const std::optional<units::Duration>& early,
                       const std::optional<units::Duration>& late, const char* beyond) {
  std::string text = t ? clock(*minutes(a, t)) : beyond;
  if (a.samples == 0 || (!early && !late)) return text;
  return text + " (" + (early ? clock(*minutes(a, early)) : beyond) + " to " +
         (late ? clock(*minutes(a, late)) : beyond) + ")";
}

void window_lines(std::string& out, const SheetAnswer& a, int columns) {
  const auto& f = a.forecast;
  const auto say = [&](const std::string& text) {
    for (const auto& l : report::wrap(text, std::clamp(columns, 40, 100))) out += l + '\n';
  };
  const char* held = "covered";
  if (a.hold.arrangement == method::Arrangement::bench) held = "on the bench";
  if (a.hold.arrangement == method::Arrangement::hang) held = "hung";
  if (a.hold.arrangement == method::Arrangement::rack) held = "on a rack";
  if (!f.likely.opens) {
    say("never ready for " + a.band.process + ": " + f.likely.at_start.reason);
  } else {
    const std::string beyond = "after " + clock(units::in_minutes(a.blotted + a.horizon));
    out += "ready for " + a.band.process + ", kept " + held + ", counted from the start\n";
    out += "  from   " + with_range(a, f.likely.opens, f.opens_early, f.opens_late, "never") + '\n';
    out += "  until  " +
           with_range(a, f.likely.closes, f.closes_early, f.closes_late, beyond.c_str()) + '\n';
    if (f.likely.closes && !f.likely.closed_why.empty()) say("then " + f.likely.closed_why);
    const auto chance_at = [&](double share) {
      const auto end = f.likely.closes ? *f.likely.closes : a.horizon;
      return readiness::chance_ready(f, *f.likely.opens + share * (end - *f.likely.opens));
    };
    if (a.samples > 0 && f.likely.closes) {
      say("half way through, " + fixed(chance_at(0.5).percent(), 0) +
          " of 100 such sheets are ready");
    }
  }
  say("The touch test has the last word: limp, cool, no shine.");
}

// When a print is within a point of what it keeps in the room.
void drying_lines(std::string& out, const SheetAnswer& a) {
  const auto time = [](const std::optional<units::Duration>& t) {
    return t ? clock(units::in_minutes(*t)) : std::string("not in this time");
  };
  out += "dry, within a point of what it keeps in this room\n  after  " + time(a.dry);
  if (a.samples > 0) out += " (" + time(a.dry_early) + " to " + time(a.dry_late) + ")";
  out += "\n";
}

// Moisture over time: the mean, the likely range, the band of the process.
void sketch(std::string& out, const SheetAnswer& a, int columns, bool utf8) {
  const int left = 6;
  const int width = std::clamp(columns, 50, 120) - left - 2;
  const int height = 12;
  const double end = std::max(1.0, units::in_minutes(a.curve.back().sample.at));
  double top = a.band.high.value.parts_of_one();
  for (const auto& m : a.curve) {
    top = std::max({top, m.sample.mean.parts_of_one(), m.high.parts_of_one()});
  }
  top = std::ceil(top * 10) / 10;
  struct Column {
    double mean = 0, low = 1e9, high = -1;
    bool any = false;
  };
  std::vector<Column> bins(static_cast<std::size_t>(width));
  std::size_t at = 0;
  for (int c = 0; c < width; ++c) {
    const double t = end * c / (width - 1);
    while (at + 1 < a.curve.size() && units::in_minutes(a.curve[at + 1].sample.at) <= t) ++at;
    const auto& m = a.curve[at];
    double mean = m.sample.mean.parts_of_one();
    double low = m.low.parts_of_one();
    double high = m.high.parts_of_one();
    if (at + 1 < a.curve.size()) {
      const auto& n = a.curve[at + 1];
      const double span = units::in_minutes(n.sample.at - m.sample.at);
      const double f = span > 0 ? (t - units::in_minutes(m.sample.at)) / span : 0;
      mean += f * (n.sample.mean.parts_of_one() - mean);
      low += f * (n.low.parts_of_one() - low);
      high += f * (n.high.parts_of_one() - high);
    }
    bins[static_cast<std::size_t>(c)] = {mean, low, high, true};
  }
  const auto row_of = [&](double u) {
    return std::clamp(static_cast<int>(std::lround((height - 1) * (1 - u / top))), 0, height - 1);
  };
  const int band_top = row_of(a.band.high.value.parts_of_one());
  const int band_bottom = row_of(a.band.low.value.parts_of_one());
  const char* dot = utf8 ? "\u25cf" : "*";
  const char* range = utf8 ? "\u2591" : ":";
  const char* edge = utf8 ? "\u2504" : "-";
  const char* wall = utf8 ? "\u2502" : "|";
  out += "\nmoisture, g/g: " + std::string(dot) + " mean";
  if (a.samples > 0) out += "  " + std::string(range) + " 8 sheets in 10";
  out += "  " + std::string(edge) + " what " + a.band.process + " takes\n";
  for (int r = 0; r < height; ++r) {
    const bool labelled = r == 0 || r == height - 1 || r == band_top || r == band_bottom;
    out += right(labelled ? fixed(top * (height - 1 - r) / (height - 1), 2) : "",
                 static_cast<std::size_t>(left - 1)) +
           wall;
    std::string line;
    std::size_t spaces = 0;
    const auto put = [&](const char* mark) {
      line.append(spaces, ' ');
      spaces = 0;
      line += mark;
    };
    for (const Column& c : bins) {
      if (row_of(c.mean) == r) {
        put(dot);
      } else if (a.samples > 0 && r >= row_of(c.high) && r <= row_of(c.low)) {
        put(range);
      } else if (r == band_top || r == band_bottom) {
        put(edge);
      } else {
        ++spaces;
      }
    }
    out += line + '\n';
  }
  std::string axis = std::string(static_cast<std::size_t>(left), ' ') + "0";
  const std::string middle = clock(end / 2);
  const std::string last = clock(end);
  axis.resize(static_cast<std::size_t>(left + width / 2) - middle.size() / 2, ' ');
  axis += middle;
  axis.resize(static_cast<std::size_t>(left + width) - last.size(), ' ');
  out += axis + last + '\n';
}

}  // namespace

std::string sheet_text(const SheetAnswer& a, int columns, bool utf8) {
  std::string out = a.stock.name + '\n';
  const auto tenths = [](double value) { return units::shortest(std::round(value * 10) / 10); };
  out += tenths(units::in_celsius(a.climate.temperature)) + " degC, " +
         tenths(a.climate.humidity.percent()) + " % humidity" +
         (a.logged ? ", the mean of a log\n\n" : "\n\n");
  stages_table(out, a);
  out += '\n';
  if (a.drying) {
    drying_lines(out, a);
  } else {
    window_lines(out, a, columns);
  }
  for (const auto& n : notes_on(a)) {
    for (const auto& l : report::wrap(n, std::clamp(columns, 40, 100))) out += l + '\n';
  }
  for (const auto& w : a.warnings) {
    for (const auto& l : report::wrap("mind: " + w, std::clamp(columns, 40, 100))) out += l + '\n';
  }
  sketch(out, a, columns, utf8);
  if (!a.air_notes.empty()) {
    out += "\nthe air, from the log\n";
    for (const auto& n : a.air_notes) {
      for (const auto& l : report::wrap("  " + n, std::clamp(columns, 40, 100))) out += l + '\n';
    }
  }
  if (!a.defaults_used.empty()) {
    out += "\ntaken for granted\n";
    for (const auto& d : a.defaults_used) {
      for (const auto& l : report::wrap("  " + d, std::clamp(columns, 40, 100))) out += l + '\n';
    }
  }
  return utf8 ? out : report::ascii(out);
}

std::string sheet_json(const SheetAnswer& a) {
  report::JsonWriter json;
  json.begin_object()
      .member("format", "dampline-sheet")
      .member("version", 1)
      .member("stock", a.stock.name)
      .member("process", a.band.process)
      .member("purpose", a.drying ? "drying" : "damping")
      .member("temperature_c", units::in_celsius(a.climate.temperature))
      .member("humidity_percent", a.climate.humidity.percent())
      .member("samples", a.samples);
  json.key("stages").begin_array();
  for (std::size_t i = 0; i < a.stages.size(); ++i) {
    const auto& s = a.stages[i];
    json.begin_object(report::Layout::row)
        .member("name", s.name)
        .member("arrangement", method::word(s.arrangement))
        .member("minutes", units::in_minutes(s.duration))
        .member("ends_at_minutes", units::in_minutes(a.curve[a.stage_ends[i]].sample.at))
        .end_object();
  }
  json.end_array();
  json.key("curve").begin_array();
  for (const auto& m : a.curve) {
    const auto& s = m.sample;
    json.begin_object(report::Layout::row)
        .member("minutes", units::in_minutes(s.at))
        .member("stage", s.stage)
        .member("mean", s.mean.parts_of_one())
        .member("surface", s.surface.parts_of_one())
        .member("driest", s.driest.parts_of_one())
        .member("wettest", s.wettest.parts_of_one())
        .member("film_g_m2", units::in_grams_per_m2(s.film))
        .member("temperature_c", celsius(s));
    json.key("growth_percent")
        .begin_object(report::Layout::row)
        .member("along", m.growth.along.percent())
        .member("across", m.growth.across.percent())
        .end_object();
    json.member("low", m.low.parts_of_one()).member("high", m.high.parts_of_one());
    json.member("edges", size::word(m.curl.edges)).end_object();
  }
  json.end_array();
  const auto& f = a.forecast;
  // A sheet still ready when it has been kept as long as it may be is closed by that limit.
  std::optional<double> until = minutes(a, f.likely.closes);
  if (!until && f.likely.opens) until = units::in_minutes(a.blotted + a.horizon);
  std::optional<std::string> closed_by;
  if (f.likely.opens) {
    closed_by = !f.likely.closes                             ? "keeping limit"
                : f.likely.closed_by == readiness::Part::rim ? "rim"
                                                             : "middle";
  }
  const auto in_minutes = [](const std::optional<units::Duration>& t) -> std::optional<double> {
    if (!t) return std::nullopt;
    return units::in_minutes(*t);
  };
  json.member("dry_at_minutes", in_minutes(a.dry))
      .member("dry_at_early_minutes", in_minutes(a.dry_early))
      .member("dry_at_late_minutes", in_minutes(a.dry_late))
      .member("hold", method::word(a.hold.arrangement))
      .member("ready_from_minutes", minutes(a, f.likely.opens))
      .member("ready_until_minutes", until)
      .member("ready_from_early_minutes", minutes(a, f.opens_early))
      .member("ready_from_late_minutes", minutes(a, f.opens_late))
      .member("ready_until_early_minutes", minutes(a, f.closes_early))
      .member("ready_until_late_minutes", minutes(a, f.closes_late))
      .member("chance_of_a_window", f.opening.parts_of_one())
      .member("closed_by", closed_by)
      .member("followed_until_minutes", units::in_minutes(a.blotted + a.horizon))
      .member("water_balance_error", a.balance_error)
      .member("defaults_used", a.defaults_used)
      .member("air_notes", a.air_notes)
      .member("notes", notes_on(a))
      .member("warnings", a.warnings)
      .end_object();
  return json.take();
}

}  // namespace dampline::cli
