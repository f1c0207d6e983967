#include <algorithm>

#include <dampline/report/characters.hpp>
#include <dampline/report/svg.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;

// Drawing units; on a phone of 320 px one is about 0.8 px.
constexpr double width = 360, axis = 50, head = 40, foot = 8;
constexpr double per_minute = 2.2;
constexpr double label_height = 13;

std::string at(double value) { return coordinate(value); }

struct Frame {
  const Chart& chart;
  double lane_width;

  [[nodiscard]] double y(HalfMinutes t) const {
    return head + (t - chart.from).count() / 2.0 * per_minute;
  }
  [[nodiscard]] double x(std::size_t lane) const {
    return axis + lane_width * static_cast<double>(lane);
  }
  [[nodiscard]] double bottom() const { return y(chart.to); }
};

void text(Markup& out, double x, double y, std::string_view words, const char* kind) {
  out.element("text", words, {{"x", at(x)}, {"y", at(y)}, {"class", kind}});
}

void lane_head(Markup& out, const Frame& f, std::size_t lane, const std::string& name) {
  const int letters = std::max(2, static_cast<int>(f.lane_width / 7.2));
  const auto lines = wrap(name, letters);
  const double middle = f.x(lane) + f.lane_width / 2;
  const std::size_t shown = std::min<std::size_t>(lines.size(), 2);
  for (std::size_t i = 0; i < shown; ++i) {
    const bool cut = i + 1 == shown && lines.size() > shown;
    text(out, middle, head - 20 + 14 * static_cast<double>(i) + (shown == 1 ? 7 : 0),
         cut ? shortened(lines[i] + "..", letters) : lines[i], "lane");
  }
}

/// Where a bar stands in a lane that holds several things: the first free place from the left.
std::vector<int> places(const Lane& lane) {
  std::vector<int> out;
  for (std::size_t i = 0; i < lane.bars.size(); ++i) {
    int place = 0;
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t j = 0; j < i; ++j) {
        const auto& other = lane.bars[j];
        if (other.end <= lane.bars[i].start || other.start >= lane.bars[i].end) continue;
        if (place < out[j] + other.amount && out[j] < place + lane.bars[i].amount) {
          place = out[j] + other.amount;
          moved = true;
        }
      }
    }
    out.push_back(place);
  }
  return out;
}

void bars(Markup& out, const Frame& f, std::size_t lane) {
  const Lane& l = f.chart.lanes[lane];
  const auto place = places(l);
  for (std::size_t i = 0; i < l.bars.size(); ++i) {
    const Bar& bar = l.bars[i];
    if (bar.family == Family::pause) continue;
    const double share = f.lane_width / std::max(l.capacity, 1);
    const double x = f.x(lane) + 1.5 + share * place[i];
    const double wide = std::max(share * bar.amount - 3, 3.0);
    const double y = f.y(bar.start), tall = std::max(f.y(bar.end) - y, 1.5);
    const auto& name = name_of(bar.family);
    out.empty("rect", {{"x", at(x)},
                       {"y", at(y)},
                       {"width", at(wide)},
                       {"height", at(tall)},
                       {"class", "bar " + std::string(name.css)}});
    std::string label(1, name.letter);
    if (!bar.label.empty()) label += " " + bar.label;
    if (display_width(label) * 7 > wide) label = label.substr(0, 1);
    if (tall < label_height || wide < 9) continue;
    text(out, x + wide / 2, y + std::min(tall / 2, 14.0) + 4.5, label,
         ("word on-" + std::string(name.css)).c_str());
  }
}

}  // namespace

void chart_svg(Markup& out, const Chart& chart, const std::string& id) {
  const double lanes = std::max<double>(1, static_cast<double>(chart.lanes.size()));
  const Frame f{chart, (width - axis) / lanes};
  const double height = f.bottom() + foot;
  out.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + at(width) + " " + at(height)},
                   {"role", "img"},
                   {"class", "chart"},
                   {"aria-labelledby", id + "-title " + id + "-desc"}});
  out.element("title", "Who does what, when", {{"id", id + "-title"}});
  out.element("desc", chart.description, {{"id", id + "-desc"}});
  out.open("defs");
  out.open("pattern", {{"id", id + "-hatch"},
                       {"width", "6"},
                       {"height", "6"},
                       {"patternUnits", "userSpaceOnUse"},
                       {"patternTransform", "rotate(45)"}});
  out.empty("path", {{"d", "M0 0V6"}, {"class", "hatch"}}).close().close().line();
  for (const auto& tick : chart.hours) {
    const std::string y = at(f.y(tick.at));
    out.empty("path", {{"d", "M" + at(axis) + " " + y + "H" + at(width)}, {"class", "grid"}});
    text(out, axis - 6, f.y(tick.at) + 5, tick.text, "hour");
  }
  for (std::size_t lane = 0; lane <= chart.lanes.size(); ++lane) {
    const std::string x = at(f.x(lane));
    out.empty("path", {{"d", "M" + x + " " + at(head) + "V" + at(f.bottom())}, {"class", "grid"}});
    if (lane < chart.lanes.size()) lane_head(out, f, lane, chart.lanes[lane].name);
  }
  out.line();
  for (std::size_t lane = 0; lane < chart.lanes.size(); ++lane) bars(out, f, lane);
  for (const auto& pause : chart.pauses) {
    const double y = f.y(pause.start), tall = f.y(pause.end) - y;
    out.empty("rect", {{"x", at(axis)},
                       {"y", at(y)},
                       {"width", at(width - axis)},
                       {"height", at(tall)},
                       {"class", "pause"},
                       {"fill", "url(#" + id + "-hatch)"}});
    if (tall >= 18) text(out, (axis + width) / 2, y + tall / 2 + 5, pause.what, "halo");
  }
  out.close().line();
}

}  // namespace dampline::report
