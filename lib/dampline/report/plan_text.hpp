#pragma once

#include <string>

#include <dampline/report/view.hpp>

namespace dampline::report {

struct TextOptions {
  int columns = 80;     ///< no line is wider; fewer than 40 are treated as 40
  bool utf8 = true;     ///< false: ASCII only
  bool colour = false;  ///< escape codes for weight and tone; they say nothing by themselves
};

/// The plan for a terminal or a printed page of fixed-width type.
[[nodiscard]] std::string plan_text(const View& view, const TextOptions& options = {});

}  // namespace dampline::report
