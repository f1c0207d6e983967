#include "validation/picture.hpp"

#include <algorithm>
#include <cmath>

#include <dampline/units/text.hpp>

#include "validation/svg.hpp"

namespace dampline::validation {
namespace {

constexpr double width = 640, right = 624, letter = 6.6;

bool has(double value) { return !std::isnan(value); }

std::string with_unit(const std::string& quantity, const std::string& unit) {
  return unit.empty() ? quantity : quantity + ", " + unit;
}

std::string hue(const char* kind, std::size_t series) { return kind + std::to_string(series % 6); }

void collect(const Point& p, std::vector<double>& values) {
  values.insert(values.end(), {p.data, p.data_low, p.data_high, p.model});
}

std::string number(double value) { return std::abs(value) < 1e-12 ? "0" : units::shortest(value); }

// Names of the series with their marks, in rows above the frame. Returns where the frame starts.
double legend(Svg& svg, const Check& check) {
  double x = 16, y = 22;
  const auto make_room = [&](std::size_t letters) {
    const double wide = 40 + letter * static_cast<double>(letters);
    if (x > 16 && x + wide > right) {
      x = 16;
      y += 18;
    }
    return wide;
  };
  const bool lines = check.picture == Picture::curve;
  for (std::size_t i = 0; i < check.series.size(); ++i) {
    const auto& name = check.series[i].name;
    const std::string words = name.empty() ? "data" : name;
    const double wide = make_room(words.size());
    if (check.prediction) {
      svg.path(move_to(x, y - 4) + line_to(x + 12, y - 4), "line " + hue("s", i));
    } else {
      svg.mark(x + 6, y - 4, static_cast<int>(i), "hollow " + hue("s", i));
    }
    svg.text(x + 16, y, words, "");
    x += wide;
  }
  if (check.picture == Picture::parity || check.prediction) return y + 16;
  make_room(5);
  const bool drawn = lines && check.series.front().joined;
  svg.path(drawn ? move_to(x, y - 4) + line_to(x + 18, y - 4)
                 : move_to(x + 9, y - 10) + line_to(x + 9, y + 2),
           (drawn ? "line " : "tick ") + hue("s", 0));
  svg.text(x + 24, y, "model", "");
  return y + 16;
}

void frame(Svg& svg, const Axis& x, const Axis& y) {
  for (const double t : y.ticks) {
    svg.path(move_to(x.from, y.at(t)) + line_to(x.to, y.at(t)), "grid");
    svg.text(x.from - 6, y.at(t) + 4, number(t), "e");
  }
  for (const double t : x.ticks) {
    svg.path(move_to(x.at(t), y.from) + line_to(x.at(t), y.from + 5), "axis");
    svg.text(x.at(t), y.from + 19, number(t), "m");
  }
  svg.path(move_to(x.from, y.to) + line_to(x.from, y.from) + line_to(x.to, y.from), "axis");
}

void data_mark(Svg& svg, double x, const Axis& y, const Point& p, std::size_t i) {
  if (has(p.data_low) && has(p.data_high)) {
    svg.path(move_to(x, y.at(p.data_low)) + line_to(x, y.at(p.data_high)),
             (has(p.data) ? "bar " : "range ") + hue("s", i));
  }
  if (has(p.data)) svg.mark(x, y.at(p.data), static_cast<int>(i), "hollow " + hue("s", i));
}

std::string curve(Svg& svg, const Check& check, double top, double bottom) {
  std::vector<double> xs, ys;
  for (const auto& s : check.series) {
    for (const auto& p : s.points) {
      xs.push_back(p.x);
      collect(p, ys);
    }
    for (const auto& [x, y] : s.line) {
      xs.push_back(x);
      ys.push_back(y);
    }
  }
  const Axis x = axis_over(xs, check.log_x, 74, right);
  const Axis y = axis_over(ys, check.log_y, bottom, top);
  frame(svg, x, y);
  for (std::size_t i = 0; i < check.series.size(); ++i) {
    const auto& s = check.series[i];
    auto line = s.line;
    if (line.empty()) {
      for (const auto& p : s.points) line.emplace_back(p.x, p.model);
      std::sort(line.begin(), line.end());
    }
    std::string d;
    for (const auto& [px, py] : line) {
      if (check.log_y && py <= 0) continue;
      if (check.log_x && px <= 0) continue;
      d += d.empty() ? move_to(x.at(px), y.at(py)) : line_to(x.at(px), y.at(py));
    }
    if (s.joined && line.size() > 1) svg.path(d, "line " + hue("s", i));
    for (const auto& p : s.points) {
      data_mark(svg, x.at(p.x), y, p, i);
      if (s.joined && line.size() > 1) continue;
      const double at = y.at(p.model);
      svg.path(move_to(x.at(p.x) - 7, at) + line_to(x.at(p.x) + 7, at), "tick " + hue("s", i));
    }
  }
  svg.text((x.from + x.to) / 2, bottom + 40, check.x_label, "m");
  svg.upright(20, (top + bottom) / 2, with_unit(check.quantity, check.unit), "m");
  return svg.take();
}

std::string parity(Svg& svg, const Check& check, double top, double bottom) {
  std::vector<double> values;
  for (const auto& s : check.series) {
    for (const auto& p : s.points) collect(p, values);
  }
  const Axis x = axis_over(values, check.log_x, 74, right);
  const Axis y = axis_over(values, check.log_x, bottom, top);
  frame(svg, x, y);
  svg.path(move_to(x.from, y.from) + line_to(x.to, y.to), "axis");
  for (std::size_t i = 0; i < check.series.size(); ++i) {
    for (const auto& p : check.series[i].points) {
      if (!has(p.data)) continue;
      svg.mark(x.at(p.data), y.at(p.model), static_cast<int>(i), "hollow " + hue("s", i));
    }
  }
  svg.text((x.from + x.to) / 2, bottom + 40, with_unit(check.quantity + " in the data", check.unit),
           "m");
  svg.upright(20, (top + bottom) / 2, with_unit("the model's", check.unit), "m");
  return svg.take();
}

std::size_t longest_label(const Check& check) {
  std::size_t longest = 0;
  for (const auto& s : check.series) {
    for (const auto& p : s.points) longest = std::max(longest, p.label.size());
  }
  return longest;
}

std::string rows(Svg& svg, const Check& check, double top, double pitch, double bottom) {
  std::vector<double> values;
  for (const auto& s : check.series) {
    for (const auto& p : s.points) collect(p, values);
  }
  const double left = std::min(330.0, 24 + letter * static_cast<double>(longest_label(check)));
  const Axis x = axis_over(values, check.log_x, left, right);
  for (const double t : x.ticks) {
    svg.path(move_to(x.at(t), top) + line_to(x.at(t), bottom), "grid");
    svg.text(x.at(t), bottom + 19, number(t), "m");
  }
  double y = top + pitch / 2;
  for (std::size_t i = 0; i < check.series.size(); ++i) {
    for (const auto& p : check.series[i].points) {
      svg.text(left - 8, y + 4, p.label, "e");
      if (has(p.data_low) && has(p.data_high)) {
        svg.path(move_to(x.at(p.data_low), y) + line_to(x.at(p.data_high), y),
                 (has(p.data) ? "bar " : "range ") + hue("s", i));
      }
      if (has(p.data)) svg.mark(x.at(p.data), y, static_cast<int>(i), "hollow " + hue("s", i));
      svg.path(move_to(x.at(p.model), y - 6) + line_to(x.at(p.model), y + 6),
               "tick " + hue("s", i));
      y += pitch;
    }
  }
  svg.text((left + right) / 2, bottom + 40, with_unit(check.quantity, check.unit), "m");
  return svg.take();
}

std::string description(const Check& check) {
  const Verdict v = judge(check);
  if (check.prediction) return "What the model says; no data.";
  return "Model beside data, " + std::to_string(v.n) + " points. " + words(check.basis) +
         ". The numbers stand in the table under the picture.";
}

}  // namespace

std::string picture(const Check& check) {
  std::size_t points = 0;
  for (const auto& s : check.series) points += s.points.size();
  // The legend is drawn twice: first to see how tall it is.
  Svg trial(0, 0, "", "");
  const double top = legend(trial, check);
  const double pitch = points > 24 ? 16 : 22;
  double bottom = top + 270;
  if (check.picture == Picture::rows) bottom = top + pitch * static_cast<double>(points);
  Svg svg(width, bottom + 54, check.title, description(check));
  legend(svg, check);
  switch (check.picture) {
    case Picture::curve:
      return curve(svg, check, top, bottom);
    case Picture::parity:
      return parity(svg, check, top, bottom);
    case Picture::rows:
      break;
  }
  return rows(svg, check, top, pitch, bottom);
}

}  // namespace dampline::validation
