#include "validation/svg.hpp"

#include <algorithm>
#include <cmath>

#include <dampline/units/text.hpp>

namespace dampline::validation {
namespace {

constexpr int series_colours = 6;

// Six hues that stand 4.5:1 off the ground in light and in dark.
std::string style() {
  const char* light[series_colours] = {"#8a3b12", "#1f5f8b", "#3f6b2a",
                                       "#7a3f7a", "#7a5c00", "#44545f"};
  const char* dark[series_colours] = {"#f0a37a", "#8fc1e6", "#a9d18e",
                                      "#d9a3d9", "#e3c35a", "#b7c6d1"};
  const auto hues = [](const char* const* hue) {
    std::string css;
    for (int i = 0; i < series_colours; ++i) {
      const std::string s = ".s" + std::to_string(i);
      css += s + "{stroke:" + hue[i] + "}.f" + std::to_string(i) + "{fill:" + hue[i] + "}";
    }
    return css;
  };
  return "text{font:12px system-ui,sans-serif;fill:#2b2b2b}.e{text-anchor:end}.m{text-anchor:"
         "middle}path{fill:none}.ground{fill:#fdfcf9}.grid{stroke:#dcd8cf;stroke-width:1}.axis{"
         "stroke:#6b675f;stroke-width:1}.line{stroke-width:1.8}.bar{stroke-width:1.2}.range{"
         "stroke-width:5;stroke-opacity:.35}.tick{stroke-width:3}.hollow{fill:#fdfcf9;"
         "stroke-width:1.5}" +
         hues(light) +
         "@media(prefers-color-scheme:dark){text{fill:#e8e4da}.ground,.hollow{fill:#1d1c1a}"
         ".grid{stroke:#3a3834}.axis{stroke:#9c968a}" +
         hues(dark) + "}";
}

std::string tenth(double value) {
  const auto text = units::fixed(value, 1);
  return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

double round_step(double span, int wanted) {
  const double rough = span / wanted;
  const double power = std::pow(10, std::floor(std::log10(rough)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * power >= rough * 0.999) return step * power;
  }
  return 10 * power;
}

void linear(Axis& axis, double low, double high) {
  if (high - low < 1e-9 * std::max(1.0, std::abs(high))) {
    const double room = std::max(0.05 * std::abs(high), 1e-3);
    low -= room;
    high += room;
  }
  if (low > 0 && low < 0.35 * high) low = 0;
  const double step = round_step(high - low, 5);
  const long first = std::lround(std::floor(low / step + 1e-9));
  const long last = std::lround(std::ceil(high / step - 1e-9));
  for (long i = first; i <= last; ++i) axis.ticks.push_back(static_cast<double>(i) * step);
}

void logarithmic(Axis& axis, double low, double high) {
  const int first = static_cast<int>(std::floor(std::log10(low)));
  const int last = static_cast<int>(std::ceil(std::log10(high)));
  std::vector<double> all;
  for (int power = first; power <= last; ++power) {
    for (const double leaf : {1.0, 2.0, 5.0}) all.push_back(leaf * std::pow(10, power));
  }
  // The last tick at or below the values to the first at or above them.
  std::size_t from = 0;
  while (from + 1 < all.size() && all[from + 1] <= low) ++from;
  std::size_t to = from;
  while (to + 1 < all.size() && all[to] < high) ++to;
  axis.ticks.assign(all.begin() + static_cast<std::ptrdiff_t>(from),
                    all.begin() + static_cast<std::ptrdiff_t>(to) + 1);
}

}  // namespace

double Axis::at(double value) const {
  const double share =
      log ? std::log(value / low) / std::log(high / low) : (value - low) / (high - low);
  return from + (to - from) * share;
}

Axis axis_over(const std::vector<double>& values, bool log, double from, double to) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const double v : values) {
    if (!std::isfinite(v) || (log && v <= 0)) continue;
    low = std::min(low, v);
    high = std::max(high, v);
  }
  Axis axis;
  axis.log = log;
  axis.from = from;
  axis.to = to;
  if (log) {
    logarithmic(axis, low, high);
  } else {
    linear(axis, low, high);
  }
  axis.low = axis.ticks.front();
  axis.high = axis.ticks.back();
  // Decades of ticks would run into each other.
  if (log && axis.ticks.size() > 7) {
    std::erase_if(axis.ticks, [](double t) {
      const double leaf = t / std::pow(10, std::floor(std::log10(t) + 1e-9));
      return std::abs(leaf - 1) > 0.01;
    });
  }
  return axis;
}

std::string escaped(const std::string& words) {
  std::string out;
  for (const char c : words) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else {
      out += c;
    }
  }
  return out;
}

std::string move_to(double x, double y) { return "M" + tenth(x) + " " + tenth(y); }
std::string line_to(double x, double y) { return "L" + tenth(x) + " " + tenth(y); }

Svg::Svg(double width, double height, const std::string& title, const std::string& description) {
  const auto size = tenth(width) + "\" height=\"" + tenth(height);
  out_ = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + size + "\" viewBox=\"0 0 " +
         tenth(width) + " " + tenth(height) +
         "\" role=\"img\" aria-labelledby=\"t d\">\n<title id=\"t\">" + escaped(title) +
         "</title>\n<desc id=\"d\">" + escaped(description) + "</desc>\n<style>" + style() +
         "</style>\n<rect class=\"ground\" width=\"" + size + "\" rx=\"4\"/>\n";
}

void Svg::path(const std::string& d, const std::string& css) {
  out_ += "<path class=\"" + css + "\" d=\"" + d + "\"/>\n";
}

void Svg::text(double x, double y, const std::string& words, const std::string& css) {
  out_ += "<text x=\"" + tenth(x) + "\" y=\"" + tenth(y) +
          (css.empty() ? "\"" : "\" class=\"" + css + "\"") + ">" + escaped(words) + "</text>\n";
}

void Svg::upright(double x, double y, const std::string& words, const std::string& css) {
  out_ += "<text transform=\"translate(" + tenth(x) + " " + tenth(y) + ") rotate(-90)\" class=\"" +
          css + "\">" + escaped(words) + "</text>\n";
}

void Svg::mark(double x, double y, int shape, const std::string& css) {
  constexpr double r = 3.6;
  std::string d;
  switch (shape % 4) {
    case 0:
      out_ += "<circle cx=\"" + tenth(x) + "\" cy=\"" + tenth(y) + "\" r=\"" + tenth(r) +
              "\" class=\"" + css + "\"/>\n";
      return;
    case 1:
      d = move_to(x - r, y - r) + line_to(x + r, y - r) + line_to(x + r, y + r) +
          line_to(x - r, y + r) + "Z";
      break;
    case 2:
      d = move_to(x, y - 1.3 * r) + line_to(x + 1.3 * r, y) + line_to(x, y + 1.3 * r) +
          line_to(x - 1.3 * r, y) + "Z";
      break;
    default:
      d = move_to(x, y - 1.2 * r) + line_to(x + 1.2 * r, y + r) + line_to(x - 1.2 * r, y + r) + "Z";
  }
  path(d, css);
}

std::string Svg::take() { return std::move(out_) + "</svg>\n"; }

}  // namespace dampline::validation
