#pragma once

#include <string>
#include <string_view>

#include <dampline/journal/entry.hpp>

namespace dampline::journal {

/// The entry as a block of the journal, a blank line before it. Control characters and those that
/// turn the direction of text are escaped, so that a journal is safe to look at. Keys from a newer
/// version are not written.
[[nodiscard]] std::string written(const Entry& entry);

/// What a new journal begins with: comments.
[[nodiscard]] std::string_view preamble();

/// A text as a TOML string on one line, quotes included; it must be UTF-8.
[[nodiscard]] std::string toml_text(std::string_view text);

/// "2026-03-14"
[[nodiscard]] std::string date_text(std::chrono::year_month_day day);

}  // namespace dampline::journal
