#pragma once

#include <string_view>

#include <dampline/session/input_error.hpp>

namespace dampline::session {

/// What a TOML reader's complaint means for what stands in the line, and how to mend it. `where` is
/// the place at which the reader gave up, which is often past the fault; `description` its words.
[[nodiscard]] InputError syntax_error(std::string_view file, std::string_view text, Place where,
                                      std::string_view description);

}  // namespace dampline::session
