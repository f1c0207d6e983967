#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/fit.hpp>

namespace dampline::planner {

/// Why so many rounds do not fit: by paper and drying places as they are counted, else by search
/// over every number of soaks that fit() tries. `planned` rounds do fit (0: none): the number of
/// prints is then one of the demands. Nothing when there is a plan of so many after all, or when
/// the budget did not suffice to refute one.
[[nodiscard]] std::optional<Clash> clash(const session::Session& session, const Craft& craft,
                                         const Treatment& treatment, int rounds, int planned,
                                         const FitOptions& options);

}  // namespace dampline::planner
