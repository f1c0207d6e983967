#pragma once

#include <string>
#include <vector>

#include "sheet_answer.hpp"

/// Sentences on what else a damped sheet does.
namespace dampline::cli {

/// How long it keeps under cover, cold and frozen, and when mould is likely (damping only); which
/// way it curls at its worst and when it is flat again, when it does.
[[nodiscard]] std::vector<std::string> notes_on(const SheetAnswer& answer);

}  // namespace dampline::cli
