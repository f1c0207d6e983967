#include <algorithm>

#include <dampline/report/register_map.hpp>
#include <dampline/report/svg.hpp>

namespace dampline::report {

namespace {

constexpr double width = 360, edge = 12, room = 34;  // drawing units

std::string at(double value) { return coordinate(value); }

double per_mm(const RegisterSketch& s) { return (width - 2 * edge) / std::max(s.sheet_long, 1.0); }

}  // namespace

double sketch_scale(const RegisterSketch& s) {
  return exaggeration(std::max({s.worst, s.tolerance, 0.01}), room / per_mm(s));
}

void register_svg(Markup& out, const RegisterSketch& s, const std::string& id) {
  const double k = per_mm(s), larger = sketch_scale(s) * k;
  const double high = s.sheet_short * k;
  out.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + at(width) + " " + at(high + 2 * edge)},
                   {"role", "img"},
                   {"class", "register"},
                   {"aria-labelledby", id + "-title " + id + "-desc"}});
  out.element("title", "Register map: " + s.plate, {{"id", id + "-title"}});
  out.element("desc", s.description, {{"id", id + "-desc"}}).line();
  const auto box = [&](double x, double y, double w, double h, const char* kind) {
    out.empty("rect",
              {{"x", at(x)}, {"y", at(y)}, {"width", at(w)}, {"height", at(h)}, {"class", kind}});
  };
  box(edge, edge, s.sheet_long * k, high, "sheet");
  const double w = s.plate_long * k, h = s.plate_short * k;
  const double x = width / 2 - w / 2, y = edge + high / 2 - h / 2;
  box(x, y, w, h, "plate");
  for (const double cx : {x, x + w}) {
    for (const double cy : {y, y + h}) {
      const auto circle = [&](double r, const char* kind) {
        out.empty("circle", {{"cx", at(cx)}, {"cy", at(cy)}, {"r", at(r)}, {"class", kind}});
      };
      circle(s.worst * larger, "off");
      circle(s.tolerance * larger, "pass");
    }
  }
  for (int i = 0; s.grain_known && i < 4; ++i) {
    const double from = edge + 8 + 4 * i, low = edge + high - 8;
    const std::string path = s.grain_long ? "M" + at(edge + 8) + " " + at(low - 4 * i) + "h24"
                                          : "M" + at(from) + " " + at(low) + "v-24";
    out.empty("path", {{"d", path}, {"class", "axis"}});
  }
  out.close().line();
}

}  // namespace dampline::report
