#pragma once

#include <string>
#include <vector>

#include <dampline/session/session.hpp>

/// An edition may go over several days: which of its plates this one prints.
namespace dampline::planner {

/// In printing order: those that follow the ones on the sheets already; only the first of them
/// where sheets are dried between plates.
[[nodiscard]] std::vector<std::string> plates_today(const session::Session& session);
[[nodiscard]] bool is_today(const session::Session& session, const std::string& plate);

}  // namespace dampline::planner
