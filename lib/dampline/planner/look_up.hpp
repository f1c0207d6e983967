#pragma once

#include <string>
#include <variant>
#include <vector>

#include <dampline/planner/day.hpp>

namespace dampline::planner {

/// What the session's names stand for.
struct Subject {
  material::Stock stock;
  std::vector<readiness::Band> bands;      ///< one a plate
  const method::Method* own = nullptr;     ///< of the book, to be done as written
  std::vector<std::string> defaults_used;  ///< in describing the paper
};

/// Looks up paper, processes, inks and step names, and who is there to do the work. Everything
/// wrong in one go, in file order.
[[nodiscard]] std::variant<Subject, session::InputErrors> look_up(const session::Session& session,
                                                                  const Knowledge& knowledge);

}  // namespace dampline::planner
