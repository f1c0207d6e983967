#include <dampline/report/page_parts.hpp>
#include <dampline/report/svg.hpp>

namespace dampline::report {

namespace {

void key(Markup& m, const Chart& chart) {
  m.open("ul", {{"class", "key"}});
  for (const Family family : chart.key) {
    if (family == Family::pause) continue;
    const auto& name = name_of(family);
    m.open("li").open("svg", {{"viewBox", "0 0 34 28"}, {"aria-hidden", "true"}});
    m.empty("rect", {{"x", "1"},
                     {"y", "1"},
                     {"width", "32"},
                     {"height", "26"},
                     {"class", "bar " + std::string(name.css)}});
    m.element("text", std::string(1, name.letter),
              {{"x", "17"}, {"y", "19"}, {"class", "word on-" + std::string(name.css)}});
    m.close().text(std::string(name.name)).close();
  }
  m.close();
}

}  // namespace

void pictures_section(Markup& m, const View& v) {
  if (v.chart.lanes.empty() && v.paper.empty()) return;
  begin_section(m, "day", "The day at a glance");
  m.open("div", {{"class", "pictures"}}).line();
  if (!v.chart.lanes.empty()) {
    m.open("figure", {{"class", "wall"}});
    chart_svg(m, v.chart, "chart");
    m.open("figcaption");
    key(m, v.chart);
    if (!v.chart.before.empty()) m.element("p", v.chart.before);
    m.close().close().line();
  }
  m.open("div");
  for (std::size_t i = 0; i < v.paper.size(); ++i) {
    m.open("figure").element("h3", v.paper[i].heading + ": how damp, when");
    m.element("p", v.paper[i].window);
    moisture_svg(m, v.paper[i], "paper" + std::to_string(i + 1));
    // How to read it is said once; the next ones look the same.
    if (i == 0) {
      m.element("figcaption",
                "Heavy line: mean, grams of water per gram of dry paper. Shade round it: eight of "
                "ten likely sheets. Dashes: the surface. Framed band: printable. Rings: pulls.");
    }
    m.close().line();
  }
  m.close().close();
  end_section(m);
}

}  // namespace dampline::report
