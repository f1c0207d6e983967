#include "air_log.hpp"

#include <algorithm>

#include <dampline/air/evaporation.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/air/room.hpp>
#include <dampline/report/characters.hpp>
#include <dampline/report/json.hpp>
#include <dampline/session/logged_air.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::cli {
namespace {

using session::Reading;
using units::fixed;

constexpr std::size_t first_few = 5;  // gaps told one by one

// Pa that the air still takes up; readings colder than -20 degC count as taking none.
double thirst(const Reading& r) {
  const double celsius = units::in_celsius(r.temperature);
  if (celsius < -20 || celsius > 60) return 0;
  return units::in_si(air::saturation_pressure(r.temperature)) * (1 - r.humidity.parts_of_one());
}

air::Climate climate_of(const Reading& r, const air::Climate& base) {
  air::Climate c = base;
  c.temperature = r.temperature;
  c.humidity = r.humidity;
  return c;
}

std::string degrees(units::Temperature t) { return fixed(units::in_celsius(t), 1); }

std::string local(const LogSummary& s, std::chrono::sys_seconds at) {
  return session::local_text(s.log.zone, at);
}

std::string line(std::string label, const std::string& value) {
  label.resize(16, ' ');
  return label + value + '\n';
}

std::string drying_text(const air::Climate& c) {
  const auto power = drying_power_g_m2_h(c);
  return power ? fixed(*power, 0) + " g/m2h" : "known from 0 to 45 degC only";
}

std::string at_text(const LogSummary& s, const air::Climate& c, std::chrono::sys_seconds at) {
  return drying_text(c) + "; " + degrees(c.temperature) + " degC and " +
         fixed(c.humidity.percent(), 0) + " %, " + local(s, at);
}

std::string interval_text(std::chrono::seconds interval) {
  return units::text(units::seconds(static_cast<double>(interval.count())));
}

std::string gaps_text(const LogSummary& s) {
  std::vector<std::string> gaps;
  for (const auto& gap : s.log.gaps) {
    if (gaps.size() == first_few) break;
    gaps.push_back(local(s, gap.from) + " to " + local(s, gap.until) + " (lines " +
                   std::to_string(gap.line_before) + " and " + std::to_string(gap.line_after) +
                   ")");
  }
  if (gaps.empty()) return "none";
  const auto more = s.log.gaps.size() - gaps.size();
  if (more > 0) gaps.push_back(std::to_string(more) + " more");
  return units::listed(gaps, "", "and");
}

}  // namespace

std::optional<double> drying_power_g_m2_h(const air::Climate& c) {
  const double celsius = units::in_celsius(c.temperature);
  if (celsius < 0 || celsius > 45) return std::nullopt;
  const auto e =
      air::evaporation(c, air::Mounting::hung, units::centimetres(56), units::centimetres(76));
  return units::in_si(e.loss) * 3.6e6;
}

LogSummary summary_of(session::Readings log, const air::Climate& base) {
  LogSummary s;
  s.log = std::move(log);
  const auto& rows = s.log.rows;
  std::vector<air::LogLine> lines;
  for (const auto& r : rows) {
    lines.push_back({units::seconds(static_cast<double>((r.at - rows.front().at).count())),
                     r.temperature, r.humidity});
  }
  s.mean = air::Room(base, lines).mean(lines.front().at, lines.back().at);
  const auto [damp, dry] =
      std::minmax_element(rows.begin(), rows.end(),
                          [](const Reading& a, const Reading& b) { return thirst(a) < thirst(b); });
  s.driest = climate_of(*dry, base);
  s.dampest = climate_of(*damp, base);
  s.driest_at = dry->at;
  s.dampest_at = damp->at;
  const auto [cold, warm] = std::minmax_element(
      rows.begin(), rows.end(),
      [](const Reading& a, const Reading& b) { return a.temperature < b.temperature; });
  s.coldest = cold->temperature;
  s.warmest = warm->temperature;
  const auto [low, high] = std::minmax_element(
      rows.begin(), rows.end(),
      [](const Reading& a, const Reading& b) { return a.humidity < b.humidity; });
  s.lowest = low->humidity;
  s.highest = high->humidity;
  return s;
}

std::string log_text(const LogSummary& s, int columns) {
  std::string out;
  const auto wrapped = [&](const std::string& label, const std::string& value) {
    const auto lines = report::wrap(value, std::clamp(columns, 40, 100) - 16);
    for (std::size_t i = 0; i < lines.size(); ++i) out += line(i == 0 ? label : "", lines[i]);
  };
  const auto& rows = s.log.rows;
  wrapped("log", s.log.file);
  std::string count = std::to_string(rows.size());
  if (s.log.interval.count() > 0) count += ", one every " + interval_text(s.log.interval);
  wrapped("readings", count);
  wrapped("from",
          local(s, rows.front().at) + " to " + local(s, rows.back().at) + ", " + s.log.zone);
  wrapped("temperature", degrees(s.mean.temperature) + " degC in the mean, " + degrees(s.coldest) +
                             " to " + degrees(s.warmest));
  wrapped("humidity", fixed(s.mean.humidity.percent(), 0) + " % in the mean, " +
                          fixed(s.lowest.percent(), 0) + " to " + fixed(s.highest.percent(), 0));
  wrapped("gaps", gaps_text(s));
  if (s.log.left_out.empty()) wrapped("left out", "none");
  for (std::size_t i = 0; i < s.log.left_out.size(); ++i) {
    const auto& l = s.log.left_out[i];
    wrapped(i == 0 ? "left out" : "", session::lines_text(l) + ": " + l.why);
  }
  for (std::size_t i = 0; i < s.log.notes.size(); ++i) {
    wrapped(i == 0 ? "read so" : "", s.log.notes[i]);
  }
  out += "\ndrying power of the room, from a wet sheet hung in it\n";
  wrapped("  at the mean", drying_text(s.mean));
  wrapped("  driest", at_text(s, s.driest, s.driest_at));
  wrapped("  dampest", at_text(s, s.dampest, s.dampest_at));
  return out;
}

std::string log_json(const LogSummary& s) {
  report::JsonWriter json;
  const auto& rows = s.log.rows;
  const auto time = [&](std::chrono::sys_seconds at) { return session::rfc3339(s.log.zone, at); };
  json.begin_object()
      .member("format", "dampline-log")
      .member("version", 1)
      .member("file", s.log.file)
      .member("zone", s.log.zone)
      .member("readings", static_cast<int>(rows.size()))
      .member("interval_minutes", static_cast<double>(s.log.interval.count()) / 60)
      .member("from", time(rows.front().at))
      .member("until", time(rows.back().at));
  const auto span = [&](const char* key, double mean, double low, double high) {
    json.key(key).begin_object(report::Layout::row);
    json.member("mean", mean).member("low", low).member("high", high).end_object();
  };
  span("temperature_c", units::in_celsius(s.mean.temperature), units::in_celsius(s.coldest),
       units::in_celsius(s.warmest));
  span("humidity_percent", s.mean.humidity.percent(), s.lowest.percent(), s.highest.percent());
  json.key("gaps").begin_array();
  for (const auto& gap : s.log.gaps) {
    json.begin_object(report::Layout::row)
        .member("from", time(gap.from))
        .member("until", time(gap.until))
        .member("line_before", gap.line_before)
        .member("line_after", gap.line_after)
        .end_object();
  }
  json.end_array();
  json.key("left_out").begin_array();
  for (const auto& l : s.log.left_out) {
    json.begin_object(report::Layout::row)
        .member("why", l.why)
        .member("rows", l.count)
        .member("first_lines", l.lines)
        .end_object();
  }
  json.end_array();
  json.member("notes", s.log.notes);
  json.key("evaporation_g_m2_h").begin_object(report::Layout::row);
  json.member("mean", drying_power_g_m2_h(s.mean))
      .member("driest", drying_power_g_m2_h(s.driest))
      .member("dampest", drying_power_g_m2_h(s.dampest))
      .end_object();
  json.member("driest_at", time(s.driest_at)).member("dampest_at", time(s.dampest_at));
  json.end_object();
  return json.take();
}

}  // namespace dampline::cli
