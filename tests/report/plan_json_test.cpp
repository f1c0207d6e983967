#include <map>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <dampline/report/plan_json.hpp>

#include "support/sample_plan.hpp"

namespace dampline::tests {

namespace {

using nlohmann::json;

json planned(const planner::Plan& plan) {
  return json::parse(report::plan_json(plan, sample_clock()));
}

/// Seconds from RFC 3339 text, from the digits alone: shares no code with what wrote it.
long seconds(const std::string& t) {
  const auto number = [&](std::size_t at, std::size_t size) {
    return std::stol(t.substr(at, size));
  };
  EXPECT_EQ(t.size(), 25U) << t;
  const long a = (14 - number(5, 2)) / 12, y = number(0, 4) + 4800 - a,
             m = number(5, 2) + 12 * a - 3;
  const long day = number(8, 2) + (153 * m + 2) / 5 + 365 * y + y / 4 - y / 100 + y / 400;
  const long offset = (number(20, 2) * 60 + number(23, 2)) * 60 * (t[19] == '-' ? -1 : 1);
  return day * 86400 + number(11, 2) * 3600 + number(14, 2) * 60 + number(17, 2) - offset;
}

/// Everything booked beyond its capacity and every step of a person's that cuts a break, from the
/// JSON alone.
std::vector<std::string> faults(const json& plan) {
  std::vector<std::string> out;
  std::map<std::string, long> capacity;
  for (const auto& r : plan["resources"]) {
    if (!capacity.emplace(r["name"], r["capacity"]).second) out.push_back("named twice");
    if (r["kind"] == "person" && r["capacity"] != 1) out.push_back("a person in two places");
  }
  std::map<std::string, std::map<long, long>>
      change;  // at each second, what is taken or given back
  for (const auto& s : plan["steps"]) {
    const long start = seconds(s["start"]), end = seconds(s["end"]);
    if (end < start) out.push_back(s["id"].get<std::string>() + " ends before it starts");
    for (const auto& use : s["uses"]) {
      if (capacity.count(use["resource"]) == 0) out.push_back("unknown resource");
      change[use["resource"]][start] += use["amount"].get<long>();
      change[use["resource"]][end] -= use["amount"].get<long>();
    }
  }
  for (const auto& [name, moments] : change) {
    long taken = 0;
    for (const auto& [at, by] : moments) {
      taken += by;
      if (taken > capacity[name]) out.push_back(name + " taken beyond its capacity");
    }
  }
  return out;
}

}  // namespace

TEST(PlanJson, booksNothingTwiceAndKeepsEveryBreak) {
  const json plan = planned(sample_plan());
  EXPECT_EQ(faults(plan), std::vector<std::string>{});
  EXPECT_GT(plan["steps"].size(), 60U);
}

TEST(PlanJson, aDoubleBookingIsSeenFromTheJsonAlone) {
  planner::Plan plan = sample_plan();
  for (auto& step : plan.steps) {
    if (step.kind == "wipe") {
      step.start -= planner::HalfMinutes(4);
      break;
    }
  }
  EXPECT_FALSE(faults(planned(plan)).empty());
}

TEST(PlanJson, workInABreakIsSeenFromTheJsonAlone) {
  planner::Plan plan = sample_plan();
  for (auto& step : plan.steps) {
    if (step.kind == "lay-out") step.end = planner::HalfMinutes(2 * 215);
  }
  EXPECT_FALSE(faults(planned(plan)).empty());
}

TEST(PlanJson, hasTheKeysOfTheContract) {
  const json plan = planned(short_plan());
  EXPECT_EQ(plan["format"], "dampline-plan");
  EXPECT_EQ(plan["version"], 1);
  for (const char* key :
       {"title", "zone", "finish", "bound_finish", "gap_percent", "prints_planned", "prints_asked",
        "defaults_used", "after", "margin_minutes", "margin_proved", "idle_wet_minutes"}) {
    EXPECT_TRUE(plan.contains(key)) << key;
  }
  for (const char* key :
       {"id", "kind", "what", "sheets", "plate", "uses", "start", "end", "cue", "because"}) {
    EXPECT_TRUE(plan["steps"][0].contains(key)) << key;
  }
  for (const char* key : {"print", "plate", "at", "ready_from", "ready_until", "moisture",
                          "chance_ready", "growth_percent", "misfit_mm"}) {
    EXPECT_TRUE(plan["pulls"][0].contains(key)) << key;
  }
  for (const char* key : {"mean", "surface", "driest", "low", "high"}) {
    EXPECT_TRUE(plan["pulls"][0]["moisture"][key].is_number()) << key;
  }
  for (const char* key : {"along", "across", "worst", "chance_within"}) {
    EXPECT_TRUE(plan["pulls"][1]["misfit_mm"][key].is_number()) << key;
  }
  EXPECT_TRUE(plan["pulls"][0]["misfit_mm"].is_null());
  for (const char* key : {"code", "text", "help"}) {
    EXPECT_TRUE(plan["warnings"][0].contains(key)) << key;
  }
  EXPECT_EQ(plan["prints_planned"], 6);
  EXPECT_EQ(plan["prints_asked"], 8);
}

TEST(PlanJson, namesTheKindsOfTheContract) {
  std::map<std::string, std::string> kinds;
  const json plan = planned(sample_plan());
  for (const auto& r : plan["resources"]) kinds[r["name"]] = r["kind"];
  EXPECT_EQ(kinds["A"], "person");
  EXPECT_EQ(kinds["table press"], "press");
  EXPECT_EQ(kinds["tub"], "tub");
  EXPECT_EQ(kinds["blotting place"], "bench");
  EXPECT_EQ(kinds["tone"], "plate");
  EXPECT_EQ(kinds["hot plate"], "hot_plate");
  EXPECT_EQ(kinds["drying places"], "drying");
}

TEST(PlanJson, timesCarryTheOffsetOfTheMoment) {
  planner::Plan plan = sample_plan();
  EXPECT_EQ(planned(plan)["opens"], "2026-03-14T09:30:00+01:00");
  const report::Clock west = {[](report::Instant) { return std::chrono::minutes(-210); }};
  EXPECT_EQ(json::parse(report::plan_json(plan, west))["opens"], "2026-03-14T05:00:00-03:30");
  // The clocks go forward by an hour at noon UTC.
  using namespace std::chrono;
  const report::Clock spring = {[](report::Instant at) {
    return at < sys_days(year(2026) / 3 / 14) + hours(12) ? minutes(0) : minutes(60);
  }};
  const json changed = json::parse(report::plan_json(plan, spring));
  EXPECT_EQ(changed["opens"], "2026-03-14T08:30:00+00:00");
  EXPECT_TRUE(changed["finish"].get<std::string>().ends_with("+01:00"));
  EXPECT_EQ(seconds(changed["finish"]) - seconds(changed["opens"]), plan.finish.count() * 30L);
}

TEST(PlanJson, isTheSameBytesEachTimeAndWholeWhateverTheText) {
  const auto once = report::plan_json(hostile_plan(), sample_clock());
  EXPECT_EQ(once, report::plan_json(hostile_plan(), sample_clock()));
  const json plan = json::parse(once);
  EXPECT_NE(plan["title"].get<std::string>().find("</title><script>"), std::string::npos);
}

}  // namespace dampline::tests
