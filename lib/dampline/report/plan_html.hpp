#pragma once

#include <string>

#include <dampline/report/view.hpp>

namespace dampline::report {

/// The plan as one page that fetches nothing and is complete without scripts: read with inky hands,
/// printed on A4 or Letter with boxes to tick and room for the real times.
[[nodiscard]] std::string plan_html(const View& view);

}  // namespace dampline::report
