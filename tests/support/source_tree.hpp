#pragma once

#include <string>
#include <string_view>

namespace dampline::tests {

/// Where the sources of this build stand, or a file in them ("data/stocks.toml"). One .cpp knows
/// it, so that a compiler cache serves every checkout.
[[nodiscard]] std::string in_source_tree(std::string_view path = "");

}  // namespace dampline::tests
