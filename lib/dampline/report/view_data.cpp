#include <algorithm>
#include <cstdint>
#include <map>

#include <dampline/report/characters.hpp>
#include <dampline/report/json.hpp>
#include <dampline/report/view_parts.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::ResourceKind;

double ms(const Plan& plan, HalfMinutes at) {
  return 1000.0 * static_cast<double>(instant(plan, at).time_since_epoch().count());
}

/// FNV-1a: tells plans apart, guards nothing.
std::string fingerprint(const std::string& text) {
  std::uint32_t hash = 2166136261U;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  std::string out;
  for (int shift = 28; shift >= 0; shift -= 4) out += "0123456789abcdef"[(hash >> shift) & 15U];
  return out;
}

void offsets(JsonWriter& json, const Plan& plan, const Clock& clock) {
  json.key("offsets").begin_array(Layout::row);
  const auto end = instant(plan, plan.until) + std::chrono::hours(36);
  std::optional<std::chrono::minutes> last;
  for (auto at = instant(plan, HalfMinutes(0)) - std::chrono::hours(36); at <= end;
       at += std::chrono::minutes(15)) {
    const auto offset = clock.offset ? clock.offset(at) : std::chrono::minutes(0);
    if (last == offset) continue;
    last = offset;
    json.begin_array(Layout::row)
        .value(1000.0 * static_cast<double>(at.time_since_epoch().count()))
        .value(static_cast<int>(offset.count()))
        .end_array();
  }
  json.end_array();
}

void steps(JsonWriter& json, const Plan& plan, const View& v) {
  std::map<std::string, const planner::Step*> by_id;
  for (const auto& step : plan.steps) by_id[clean(step.id)] = &step;
  json.key("steps").begin_array();
  for (const auto& block : v.steps) {
    for (const auto& row : block.rows) {
      const auto found = by_id.find(row.id);
      json.begin_object(Layout::row).member("id", row.id);
      json.member("from", ms(plan, row.start)).member("to", ms(plan, row.end));
      json.member("what", row.what).member("cue", row.cue);
      json.key("who").begin_array(Layout::row);
      for (std::size_t at = 0; at < row.who.size();) {  // the row's names, "A, B"
        const auto comma = std::min(row.who.find(", ", at), row.who.size());
        json.value(row.who.substr(at, comma - at));
        at = comma + 2;
      }
      json.end_array().key("sheets").begin_array(Layout::row);
      if (found != by_id.end()) {
        for (const int sheet : found->second->sheets) json.value(sheet);
      }
      json.end_array().member("pause", row.family == Family::pause);
      json.member("pull", row.pull).end_object();
    }
  }
  json.end_array();
}

void pulls(JsonWriter& json, const Plan& plan, const View& v) {
  json.key("pulls").begin_array();
  for (std::size_t i = 0; i < plan.pulls.size(); ++i) {
    const auto& pull = plan.pulls[i];
    std::string step;  // the pass it is made in
    for (const auto& s : plan.steps) {
      if (s.kind == "pull" && s.start == pull.at && s.print == pull.print &&
          (s.plate.empty() || s.plate == pull.plate)) {
        step = clean(s.id);
      }
    }
    json.begin_object(Layout::row).member("step", step).member("sheet", pull.sheet);
    json.member("name", v.pulls[i].label + ", " + v.pulls[i].plate);
    json.member("at", ms(plan, pull.at)).member("from", ms(plan, pull.ready_from));
    json.member("until", ms(plan, pull.ready_until)).end_object();
  }
  json.end_array();
}

/// Within a script element only these could be taken for markup.
std::string for_script(const std::string& json) {
  std::string out;
  for (const char c : json) {
    if (c == '<') {
      out += "\\u003c";
    } else if (c == '>') {
      out += "\\u003e";
    } else if (c == '&') {
      out += "\\u0026";
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace

std::string script_data(const Plan& plan, const Clock& clock, const View& v) {
  if (v.steps.empty()) return {};
  JsonWriter json;
  json.begin_object().member("title", v.title).member("date", v.date);
  json.member("day", rfc3339(clock, plan.opens).substr(0, 10));
  json.member("zone", v.zone).member("until", ms(plan, plan.until));
  json.member("finish", ms(plan, plan.finish));
  offsets(json, plan, clock);
  steps(json, plan, v);
  pulls(json, plan, v);
  json.end_object();
  const std::string text = json.take();
  // What was ticked belongs to these very steps: another plan of the day begins anew.
  std::string out = for_script(text);
  const auto brace = out.find('{');
  return out.substr(0, brace + 1) + "\n  \"id\": \"" + fingerprint(text) + "\"," +
         out.substr(brace + 1);
}

}  // namespace dampline::report
