#include <algorithm>
#include <cmath>

#include <dampline/report/characters.hpp>
#include <dampline/report/svg.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;

constexpr double width = 400, height = 300;
constexpr double left = 44, right = 392, top = 34, bottom = 262;

std::string at(double value) { return coordinate(value); }

struct Scale {
  HalfMinutes from{}, to{};
  double low = 0, high = 1;

  [[nodiscard]] double x(HalfMinutes t) const {
    const double share = static_cast<double>((t - from).count()) / std::max(1, (to - from).count());
    return left + (right - left) * std::clamp(share, 0.0, 1.0);
  }
  [[nodiscard]] double y(double moisture) const {
    return bottom - (bottom - top) * std::clamp((moisture - low) / (high - low), 0.0, 1.0);
  }
};

Scale scale_of(const planner::Batch& batch) {
  Scale s{batch.curve.front().at, batch.curve.back().at, batch.band_low.parts_of_one(),
          batch.band_high.parts_of_one()};
  for (const auto& p : batch.curve) {
    s.low = std::min({s.low, p.low.parts_of_one(), p.mean.parts_of_one()});
    s.high = std::max({s.high, p.high.parts_of_one(), p.surface.parts_of_one()});
  }
  s.low = std::max(0.0, std::floor(s.low * 10 - 0.5) / 10);
  s.high = std::ceil(s.high * 10 + 0.2) / 10;
  return s;
}

template <class Value>
std::string path(const planner::Batch& batch, const Scale& s, Value value) {
  std::string d;
  for (const auto& p : batch.curve) {
    d += (d.empty() ? "M" : "L") + at(s.x(p.at)) + " " + at(s.y(value(p).parts_of_one()));
  }
  return d;
}

std::string likely(const planner::Batch& batch, const Scale& s) {
  std::string d = path(batch, s, [](const auto& p) { return p.high; });
  for (auto p = batch.curve.rbegin(); p != batch.curve.rend(); ++p) {
    d += "L" + at(s.x(p->at)) + " " + at(s.y(p->low.parts_of_one()));
  }
  return d + "Z";
}

void text(Markup& out, double x, double y, std::string_view words, const char* kind) {
  out.element("text", words, {{"x", at(x)}, {"y", at(y)}, {"class", kind}});
}

void axes(Markup& out, const PaperBatch& paper, const Scale& s) {
  const double step = s.high - s.low > 0.8 ? 0.2 : 0.1;
  const int lines = static_cast<int>(std::lround((s.high - s.low) / step));
  for (int i = 0; i <= lines; ++i) {
    const double u = s.low + i * step;
    const std::string y = at(s.y(u));
    out.empty("path", {{"d", "M" + at(left) + " " + y + "H" + at(right)}, {"class", "grid"}});
    text(out, left - 6, s.y(u) + 5, units::fixed(u, 1), "hour");
  }
  // Hours that would run into one another are left out, evenly.
  const std::size_t every = paper.hours.size() / 6 + 1;
  for (std::size_t i = 0; i < paper.hours.size(); i += every) {
    const double x = s.x(paper.hours[i].at);
    out.empty("path", {{"d", "M" + at(x) + " " + at(bottom) + "v5"}, {"class", "axis"}});
    text(out, std::clamp(x, left + 10, right - 20), bottom + 20, paper.hours[i].text, "clock");
  }
  out.empty("path",
            {{"d", "M" + at(left) + " " + at(bottom) + "H" + at(right)}, {"class", "axis"}});
}

void window(Markup& out, const PaperBatch& paper, const Scale& s) {
  const auto& b = paper.batch;
  const double x0 = s.x(b.ready_from), x1 = s.x(b.ready_until);
  const double y0 = s.y(b.band_high.parts_of_one()), y1 = s.y(b.band_low.parts_of_one());
  out.empty("rect", {{"x", at(left)},
                     {"y", at(y0)},
                     {"width", at(right - left)},
                     {"height", at(y1 - y0)},
                     {"class", "printable"}});
  for (const double x : {x0, x1}) {
    out.empty("path",
              {{"d", "M" + at(x) + " " + at(top - 8) + "V" + at(bottom)}, {"class", "edge"}});
  }
  text(out, std::clamp((x0 + x1) / 2, left + 110, right - 80), top - 14,
       "printable " + paper.printable, "clock");
}

}  // namespace

void moisture_svg(Markup& out, const PaperBatch& paper, const std::string& id) {
  if (paper.batch.curve.size() < 2) return;
  const Scale s = scale_of(paper.batch);
  out.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + at(width) + " " + at(height)},
                   {"role", "img"},
                   {"class", "moisture"},
                   {"aria-labelledby", id + "-title " + id + "-desc"}});
  out.element("title", "Moisture of " + paper.heading, {{"id", id + "-title"}});
  out.element("desc", paper.description, {{"id", id + "-desc"}}).line();
  axes(out, paper, s);
  window(out, paper, s);
  out.empty("path", {{"d", likely(paper.batch, s)}, {"class", "likely"}});
  out.empty("path", {{"d", path(paper.batch, s, [](const auto& p) { return p.surface; })},
                     {"class", "surface"}});
  out.empty("path",
            {{"d", path(paper.batch, s, [](const auto& p) { return p.mean; })}, {"class", "mean"}});
  for (const auto& mark : paper.pulls) {
    out.empty("circle", {{"cx", at(s.x(mark.at))},
                         {"cy", at(s.y(mark.moisture))},
                         {"r", "4.5"},
                         {"class", "mark"}});
  }
  text(out, 4, 14, "g/g", "unit");
  out.close().line();
}

}  // namespace dampline::report
