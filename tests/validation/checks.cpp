#include "validation/checks.hpp"

#include <iterator>
#include <set>
#include <stdexcept>

namespace dampline::validation {

std::vector<Check> all_checks() {
  using Group = std::vector<Check> (*)();
  // The order of the page.
  constexpr Group groups[] = {
      air_checks,           convection_checks,     pool_checks,
      balance_checks,       diffusion_checks,      isotherm_checks,
      isotherm_heat_checks, suction_checks,        transport_checks,
      uptake_checks,        uptake_soak_checks,    soak_times_checks,
      blotting_checks,      blotting_packs_checks, blotting_drying_checks,
      size_checks,
  };
  std::vector<Check> all;
  for (const auto& group : groups) {
    auto some = group();
    std::move(some.begin(), some.end(), std::back_inserter(all));
  }
  std::set<std::string> ids;
  for (const auto& check : all) {
    if (!ids.insert(check.id).second) throw std::runtime_error("two checks called " + check.id);
  }
  return all;
}

}  // namespace dampline::validation
