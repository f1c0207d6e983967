#include <algorithm>
#include <charconv>

#include <dampline/report/plan_svg.hpp>
#include <dampline/report/svg.hpp>

namespace dampline::report {

namespace {

constexpr double width = 360, gap = 18, line = 22;
constexpr double margin = 30;  // on the right: words of a drawing may reach over its edge

/// Plain colours in place of the page's variables: not every reader of SVG knows those.
constexpr std::string_view style = R"css(
svg{overflow:visible}
text{fill:#14181b;font:13px Optima,Candara,"Noto Sans","DejaVu Sans",sans-serif}
.head{font-size:16px;font-weight:700}
.hour,.y{text-anchor:end;font-size:14px}.clock,.lane,.halo,.word{text-anchor:middle}
.lane,.halo,.on-press,.on-ink,.on-damp{font-weight:700}
.halo{font-size:15px;paint-order:stroke;stroke:#fff;stroke-width:6px}
.grid{stroke:#a9b2b7;stroke-width:.6}.axis{stroke:#14181b;stroke-width:1.5;fill:none}
.hatch{stroke:#3f474c;stroke-width:1.4}rect.pause{stroke:#3f474c;stroke-width:1}
.bar{stroke:#14181b;stroke-width:1;fill:#fff}.bar.press{fill:#14181b}.bar.ink{fill:#3d5a70}
.bar.away{fill:#9fb0ba}.bar.damp{fill:#c6dde9}.bar.blot{fill:#dfeaf0}
.bar.ready,.bar.clear{stroke-dasharray:4 2}.on-press,.on-ink{fill:#fff}
.printable{fill:#e6f0e4;stroke:#3f474c;stroke-width:1;stroke-dasharray:6 3}
.likely{fill:#c3d0d8;fill-opacity:.75}.edge{stroke:#14181b;stroke-width:1;stroke-dasharray:2 3}
.mean{fill:none;stroke:#14181b;stroke-width:3}
.surface{fill:none;stroke:#0d3b66;stroke-width:2;stroke-dasharray:7 4}
.mark{fill:#fff;stroke:#14181b;stroke-width:2}
)css";

/// The height a drawing takes at our width, by its viewBox; 0 when it has none.
double height_of(const std::string& drawing) {
  constexpr std::string_view lead = "viewBox=\"0 0 ";
  const auto at = drawing.find(lead);
  if (at == std::string::npos) return 0;
  const char* end = drawing.data() + drawing.size();
  double wide = 0, tall = 0;
  const auto first = std::from_chars(drawing.data() + at + lead.size(), end, wide);
  if (first.ec != std::errc() || first.ptr == end) return 0;
  std::from_chars(first.ptr + 1, end, tall);
  return wide > 0 ? tall * width / wide : 0;
}

class Drawing {
 public:
  explicit Drawing(const View& v) : v_(v) {}

  std::string write() {
    Markup chart;
    chart_svg(chart, v_.chart, "chart");
    add("Who does what, when", chart.take());
    for (std::size_t i = 0; i < v_.paper.size(); ++i) {
      Markup curve;
      moisture_svg(curve, v_.paper[i], "paper-" + std::to_string(i + 1));
      add(v_.paper[i].heading, curve.take());
    }
    Markup out;
    out.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                     {"viewBox", "0 0 " + coordinate(width + margin) + " " + coordinate(y_)},
                     {"width", coordinate(2 * (width + margin))},
                     {"height", coordinate(2 * y_)},
                     {"role", "img"},
                     {"aria-labelledby", "title desc"}});
    out.element("title", v_.title + ", " + v_.date, {{"id", "title"}});
    out.element("desc", v_.chart.description, {{"id", "desc"}});
    out.open("style").verbatim(style).close().line();
    out.empty("rect", {{"width", "100%"}, {"height", "100%"}, {"fill", "#fff"}}).line();
    out.element("text", v_.title, {{"x", "4"}, {"y", "18"}, {"class", "head"}});
    out.element("text", v_.date, {{"x", "4"}, {"y", "36"}}).line();
    out.verbatim(inside_);
    return out.take();
  }

 private:
  /// A drawing below those that stand already, under its heading.
  void add(const std::string& heading, std::string drawing) {
    if (drawing.find("<svg") == std::string::npos) return;  // nothing to draw
    const double height = height_of(drawing);
    y_ += gap;
    Markup head;
    head.element("text", heading, {{"x", "4"}, {"y", coordinate(y_ + 14)}, {"class", "head"}});
    inside_ += head.take();
    y_ += line;
    drawing.insert(drawing.find("<svg") + 4, " x=\"0\" y=\"" + coordinate(y_) + "\" width=\"" +
                                                 coordinate(width) + "\" height=\"" +
                                                 coordinate(height) + "\"");
    inside_ += drawing;
    y_ += height;
  }

  const View& v_;
  std::string inside_;
  double y_ = 40;
};

}  // namespace

std::string plan_svg(const View& view) { return Drawing(view).write(); }

}  // namespace dampline::report
