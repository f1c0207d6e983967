#pragma once

#include <string_view>

/// What stands beside this file as page*.css and page*.js, built into the library.
namespace dampline::report {

[[nodiscard]] std::string_view page_style();
[[nodiscard]] std::string_view page_script();

}  // namespace dampline::report
