#pragma once

#include <map>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

/// What anybody can check of a plan from its JSON alone.
namespace dampline::tests {

using nlohmann::json;

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

// Times of one plan have one offset, so their texts sort as they do.
using Moment = std::string;

inline void expect_within_windows(const json& plan) {
  ASSERT_FALSE(plan["pulls"].empty());
  for (const auto& pull : plan["pulls"]) {
    const Moment at = pull["at"];
    EXPECT_LE(pull["ready_from"].get<Moment>(), at);
    EXPECT_LE(at, pull["ready_until"].get<Moment>());
    const double chance = pull["chance_ready"];
    EXPECT_GE(chance, 0);
    EXPECT_LE(chance, 1);
    const auto& moisture = pull["moisture"];
    EXPECT_LE(moisture["low"].get<double>(), moisture["high"].get<double>());
    EXPECT_GT(pull["growth_percent"]["across"].get<double>(),
              pull["growth_percent"]["along"].get<double>());
  }
}

inline void expect_nothing_double_booked(const json& plan) {
  for (const auto& resource : plan["resources"]) {
    if (resource["kind"] == "drying") continue;  // filled up over the day, never given back
    std::map<Moment, int> change;
    for (const auto& step : plan["steps"]) {
      for (const auto& use : step["uses"]) {
        if (use["resource"] != resource["name"]) continue;
        change[step["start"]] += use["amount"].get<int>();
        change[step["end"]] -= use["amount"].get<int>();
      }
    }
    int used = 0;
    for (const auto& [at, by] : change) {
      used += by;
      EXPECT_LE(used, resource["capacity"].get<int>()) << resource["name"] << " at " << at;
    }
  }
}

}  // namespace dampline::tests
