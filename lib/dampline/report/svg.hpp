#pragma once

#include <string>

#include <dampline/report/markup.hpp>
#include <dampline/report/view.hpp>

/// Drawings of a plan, as SVG inside the page. They are styled by the page's sheet (html_style.hpp)
/// and legible without it or in grey: letters and lines carry what tones only help to see.
namespace dampline::report {

/// The day from top to bottom, a lane for each person, press, tub and plate. Ids begin with `id`.
void chart_svg(Markup& out, const Chart& chart, const std::string& id);

/// Moisture of one batch over time: mean, surface, the band of eight in ten likely sheets, the band
/// in which it is printable, and the pulls.
void moisture_svg(Markup& out, const PaperBatch& paper, const std::string& id);

}  // namespace dampline::report
