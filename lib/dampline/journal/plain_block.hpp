#pragma once

#include <optional>
#include <string_view>

#include <dampline/session/document.hpp>

namespace dampline::journal {

/// The table of a block in exactly the form this program writes, ten times as fast as by the TOML
/// reader; none for any other form, however good. What is accepted is what the TOML reader makes of
/// it, places included (tests/fuzz/journal_fuzz.cpp holds the two to each other).
[[nodiscard]] std::optional<session::Value> read_plain_block(std::string_view block);

}  // namespace dampline::journal
