#include "validation/checks.hpp"

#include <algorithm>
#include <iterator>
#include <set>
#include <stdexcept>

namespace dampline::validation {

std::vector<Check> all_checks() {
  using Group = std::vector<Check> (*)();
  // The order of the page within a room.
  constexpr Group groups[] = {
      air_checks,
      convection_checks,
      pool_checks,
      balance_checks,
      ratio_checks,
      diffusion_checks,
      drying_shape_checks,
      drying_checks,
      historic_checks,
      cover_checks,
      salt_checks,
      isotherm_checks,
      isotherm_heat_checks,
      suction_checks,
      transport_checks,
      transport_water_checks,
      uptake_checks,
      uptake_soak_checks,
      soak_times_checks,
      blotting_checks,
      blotting_packs_checks,
      blotting_drying_checks,
      size_checks,
      size_grain_checks,
      mould_checks,
  };
  std::vector<Check> all;
  for (const auto& group : groups) {
    auto some = group();
    std::move(some.begin(), some.end(), std::back_inserter(all));
  }
  const std::vector<std::string> rooms{"air", "material", "stack", "method", "readiness", "size"};
  const auto floor = [&rooms](const Check& check) {
    const auto room = std::find(rooms.begin(), rooms.end(), check.room);
    if (room == rooms.end()) throw std::runtime_error(check.id + ": no room " + check.room);
    return room - rooms.begin();
  };
  std::stable_sort(all.begin(), all.end(),
                   [&floor](const Check& a, const Check& b) { return floor(a) < floor(b); });
  std::set<std::string> ids;
  for (const auto& check : all) {
    if (!ids.insert(check.id).second) throw std::runtime_error("two checks called " + check.id);
  }
  return all;
}

}  // namespace dampline::validation
