#include <algorithm>
#include <cmath>

#include <dampline/report/characters.hpp>
#include <dampline/report/markup.hpp>
#include <dampline/report/register_map.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using units::in_millimetres;

// Drawing units of one map.
constexpr double panel = 300, gap = 30, edge = 24, head = 64, foot = 92;
constexpr double widest_caption = 270;

constexpr std::string_view style = R"css(
:root{color-scheme:light dark;--sheet:#fff;--text:#14181b;--soft:#3f474c;--rule:#8b969c;--ink:#0d3b66}
@media (prefers-color-scheme:dark){:root{--sheet:#0f1315;--text:#eef1f2;--soft:#c6ced2;--rule:#7a868d;--ink:#a9d2f0}}
.ground{fill:var(--sheet)}
text{fill:var(--text);font:14px Optima,Candara,"Noto Sans","DejaVu Sans",sans-serif}
.head{font-weight:700;font-size:16px}.soft{fill:var(--soft)}
.sheet{fill:none;stroke:var(--rule);stroke-width:1}
.plate{fill:none;stroke:var(--text);stroke-width:1;stroke-dasharray:5 3}
.image{fill:none;stroke:var(--ink);stroke-width:2}
.move{fill:none;stroke:var(--ink);stroke-width:2.5}
.tip{fill:var(--ink)}
.pass{fill:none;stroke:var(--soft);stroke-width:1;stroke-dasharray:1.5 2.5}
.grain{stroke:var(--rule);stroke-width:1}
@media print{:root{--sheet:#fff;--text:#000;--soft:#000;--rule:#888;--ink:#000}}
)css";

std::string at(double value) { return coordinate(value); }

struct Spot {
  double x = 0, y = 0;
};

// The map's scale: the sheet's long side up the page.
struct Scale {
  double per_mm = 1, left = 0, top = 0, exaggerated = 1;
  double sheet_w = 0, sheet_h = 0;  // mm, short side across the page
  bool own = false;                 // exaggerated less than the rest

  [[nodiscard]] Spot spot(double long_mm, double short_mm) const {
    return {left + short_mm * per_mm, top + (sheet_h - long_mm) * per_mm};
  }
  // Moved by a shift in mm, exaggerated.
  [[nodiscard]] Spot moved(Spot s, const size::Shift& by) const {
    const double k = per_mm * exaggerated;
    return {s.x + k * in_millimetres(by.short_way), s.y - k * in_millimetres(by.long_way)};
  }
};

void text(Markup& out, double x, double y, std::string_view words, const char* kind = "") {
  out.element("text", words, {{"x", at(x)}, {"y", at(y)}, {"class", kind}});
}

std::string line(const Spot& a, const Spot& b) {
  return "M" + at(a.x) + " " + at(a.y) + "L" + at(b.x) + " " + at(b.y);
}

void arrow(Markup& out, const Spot& from, const Spot& to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < 1) {
    out.empty("circle", {{"cx", at(to.x)}, {"cy", at(to.y)}, {"r", "3"}, {"class", "tip"}});
    return;
  }
  const double ux = (to.x - from.x) / length, uy = (to.y - from.y) / length;
  const double tip = std::min(9.0, 0.6 * length);
  const Spot base{to.x - ux * tip, to.y - uy * tip};
  out.empty("path", {{"d", line(from, base)}, {"class", "move"}});
  const double half = 0.45 * tip;
  out.empty("path", {{"d", "M" + at(to.x) + " " + at(to.y) + "L" + at(base.x - uy * half) + " " +
                               at(base.y + ux * half) + "L" + at(base.x + uy * half) + " " +
                               at(base.y - ux * half) + "Z"},
                     {"class", "tip"}});
}

// Strokes in the sheet's corner that run as the grain does.
void grain(Markup& out, const Scale& s, size::Grain grain) {
  if (grain == size::Grain::none) return;
  const bool up = grain == size::Grain::along_long_side;
  const Spot corner{s.left + 8, s.top + s.sheet_h * s.per_mm - 8};
  for (int i = 0; i < 4; ++i) {
    const Spot a = up ? Spot{corner.x + 4 * i, corner.y} : Spot{corner.x, corner.y - 4 * i};
    const Spot b = up ? Spot{a.x, a.y - 22} : Spot{a.x + 22, a.y};
    out.empty("path", {{"d", line(a, b)}, {"class", "grain"}});
  }
}

void rectangle(Markup& out, const Spot& a, const Spot& b, const char* kind) {
  out.empty("rect", {{"x", at(std::min(a.x, b.x))},
                     {"y", at(std::min(a.y, b.y))},
                     {"width", at(std::abs(b.x - a.x))},
                     {"height", at(std::abs(b.y - a.y))},
                     {"class", kind}});
}

std::string number(units::Length l) { return units::fixed(in_millimetres(l), 2); }
std::string mm(units::Length l) { return number(l) + " mm"; }

void map(Markup& out, const size::Printing& p, const size::Comparison& c,
         const size::WayAnswer& way, const Scale& s) {
  const auto& pull = *size::worst_pull(way);
  const auto& later = *pull.later;
  const auto plate = std::find_if(p.plates.begin(), p.plates.end(),
                                  [&](const auto& one) { return one.name == pull.plate; });
  const double l = in_millimetres(plate->long_side), w = in_millimetres(plate->short_side);
  const double l0 = 0.5 * (s.sheet_h - l), w0 = 0.5 * (s.sheet_w - w);
  text(out, s.left, s.top - 34, size::title(way.way), "head");
  text(out, s.left, s.top - 14, pull.plate + " on the image before it", "soft");
  rectangle(out, s.spot(0, 0), s.spot(s.sheet_h, s.sheet_w), "sheet");
  grain(out, s, c.grain);
  rectangle(out, s.spot(l0, w0), s.spot(l0 + l, w0 + w), "plate");
  // Corners in the order of Misfit: long way first.
  const std::array<Spot, 4> corner{s.spot(l0, w0), s.spot(l0 + l, w0), s.spot(l0, w0 + w),
                                   s.spot(l0 + l, w0 + w)};
  std::array<Spot, 4> to{};
  for (std::size_t i = 0; i < 4; ++i) to[i] = s.moved(corner[i], later.misfit.corner[i]);
  out.empty("path", {{"d", line(to[0], to[1]) + "L" + at(to[3].x) + " " + at(to[3].y) + "L" +
                               at(to[2].x) + " " + at(to[2].y) + "Z"},
                     {"class", "image"}});
  const double radius = in_millimetres(p.tolerance) * s.per_mm * s.exaggerated;
  for (std::size_t i = 0; i < 4; ++i) {
    out.empty(
        "circle",
        {{"cx", at(corner[i].x)}, {"cy", at(corner[i].y)}, {"r", at(radius)}, {"class", "pass"}});
    arrow(out, corner[i], to[i]);
  }
  const double below = s.top + s.sheet_h * s.per_mm;
  text(out, s.left, below + 22,
       "worst corner " + mm(later.worst.value) + " (" + number(later.worst.low) + "-" +
           number(later.worst.high) + ")");
  text(out, s.left, below + 42,
       "along " + mm(later.misfit.along) + ", across " + mm(later.misfit.across), "soft");
  const std::string alone =
      s.own ? "; drawn only " + units::shortest(s.exaggerated) + " times" : "";
  text(out, s.left, below + 62, "fits " + units::fixed(later.within.percent(), 0) + " %" + alone,
       "soft");
}

std::string described(const size::Answer& a) {
  std::string out;
  for (const auto& way : a.shown.ways) {
    const auto& pull = *size::worst_pull(way);
    out += size::title(way.way) + ": " + pull.plate + " out by " + mm(pull.later->worst.value) +
           " at its worst corner. ";
  }
  return out;
}

}  // namespace

double exaggeration(double largest_move_mm, double room_mm) {
  double best = 1;
  for (const double decade : {1.0, 10.0, 100.0, 1e3, 1e4}) {
    for (const double step : {1.0, 2.0, 5.0}) {
      if (decade * step * largest_move_mm <= room_mm) best = decade * step;
    }
  }
  return std::min(best, 1000.0);
}

std::string register_map(const size::Printing& p, const size::Answer& a) {
  if (a.shown.ways.empty() || size::worst_pull(a.shown.ways.front()) == nullptr) return {};
  double largest = in_millimetres(p.tolerance);
  // The way that is far off anyhow must not make the others' arrows vanish.
  for (const auto& way : a.shown.ways) {
    if (way.way == size::Way::dry) continue;
    largest = std::max(largest, in_millimetres(size::worst_pull(way)->later->worst.value));
  }
  Scale s;
  s.sheet_w = in_millimetres(p.sheet_short);
  s.sheet_h = in_millimetres(p.sheet_long);
  s.per_mm = panel / s.sheet_h;
  const double room = 40 / s.per_mm;  // mm
  s.exaggerated = exaggeration(largest, room);
  const double wide = std::max(s.sheet_w * s.per_mm, widest_caption);
  const auto maps = static_cast<double>(a.shown.ways.size());
  const double columns = std::min(maps, 2.0), rows = std::ceil(maps / columns);
  const double width = 2 * edge + columns * wide + (columns - 1) * gap;
  const double tall = head + panel + foot;
  const double height = 80 + rows * tall;
  Markup out;
  out.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + at(width) + " " + at(height)},
                   {"width", at(width)},
                   {"height", at(height)},
                   {"role", "img"},
                   {"aria-labelledby", "map-title map-desc"}});
  out.element("title", "Register of later plates, by way of printing", {{"id", "map-title"}});
  out.element("desc", described(a), {{"id", "map-desc"}});
  out.open("style").verbatim(style).close().line();
  out.empty("rect", {{"width", "100%"}, {"height", "100%"}, {"class", "ground"}}).line();
  for (std::size_t i = 0; i < a.shown.ways.size(); ++i) {
    Scale here = s;
    const std::size_t rows_above = i / 2;
    const auto column = static_cast<double>(i % 2), row = static_cast<double>(rows_above);
    here.left = edge + column * (wide + gap);
    here.top = head + row * tall;
    const auto& way = a.shown.ways[i];
    const double own =
        exaggeration(in_millimetres(size::worst_pull(way)->later->worst.value), room);
    here.own = own < s.exaggerated;
    here.exaggerated = std::min(own, s.exaggerated);
    map(out, p, a.shown, way, here);
    out.line();
  }
  const double y = rows * tall + 20;
  text(out, edge, y, "Sheet and plate to scale; arrows, moved image and tolerance", "soft");
  text(out, edge, y + 20,
       "drawn " + units::shortest(s.exaggerated) + " times too large. Broken line: the plate.",
       "soft");
  text(out, edge, y + 40,
       "Full line: the image on the sheet. Dotted: the " + mm(p.tolerance) + " let pass.", "soft");
  return out.close().line().take();
}

}  // namespace dampline::report
