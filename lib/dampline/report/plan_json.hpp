#pragma once

#include <string>

#include <dampline/planner/plan.hpp>
#include <dampline/report/clock.hpp>

namespace dampline::report {

/// The plan as JSON, format "dampline-plan" version 1: times RFC 3339 with offset, moisture in
/// grams of water per gram of dry fibre, chances from 0 to 1. A resource is never used beyond its
/// capacity at any instant, a person is a resource of capacity 1, and unattended steps use none:
/// from this text alone the plan can be checked. Keys stay within a version; more may be added.
[[nodiscard]] std::string plan_json(const planner::Plan& plan, const Clock& clock);

}  // namespace dampline::report
