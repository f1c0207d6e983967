#pragma once

#include <string_view>

namespace dampline::report {

/// The style sheet of the page and of the drawings in it.
[[nodiscard]] std::string_view html_style();

}  // namespace dampline::report
