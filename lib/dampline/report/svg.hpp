#pragma once

#include <string>

#include <dampline/report/markup.hpp>
#include <dampline/report/view.hpp>

/// Drawings of a plan, as SVG inside the page. They are styled by the page's sheet (page.css)
/// and legible without it or in grey: letters and lines carry what tones only help to see.
namespace dampline::report {

/// The day from top to bottom, a lane for each person, press, tub and plate. Ids begin with `id`.
void chart_svg(Markup& out, const Chart& chart, const std::string& id);

/// Moisture of one batch over time: mean, surface, the band of eight in ten likely sheets, the band
/// in which it is printable, and the pulls.
void moisture_svg(Markup& out, const PaperBatch& paper, const std::string& id);

/// Sheet and plate to scale; at each corner the ring that is let pass and the disc in which the
/// image may lie, both drawn larger by the number the caption states.
void register_svg(Markup& out, const RegisterSketch& sketch, const std::string& id);
/// How many times larger: the largest of 1, 2, 5, 10 ... at which they stay small on the sheet.
[[nodiscard]] double sketch_scale(const RegisterSketch& sketch);

}  // namespace dampline::report
