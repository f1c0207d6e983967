#include <dampline/report/html_style.hpp>
#include <dampline/report/markup.hpp>
#include <dampline/report/plan_html.hpp>
#include <dampline/report/svg.hpp>

namespace dampline::report {

namespace {

class Page {
 public:
  explicit Page(const View& v) : v_(v) {}

  std::string write() {
    m_.verbatim("<!DOCTYPE html>\n").open("html", {{"lang", "en"}}).line();
    head();
    m_.open("body").line();
    card();
    m_.open("main").line();
    list("late", "Running late", v_.late);
    alerts();
    paper();
    contents();
    steps();
    pictures();
    pulls();
    after();
    list("next-day", "The next day", v_.next_day);
    list("clash", "What does not go together", v_.clashes);
    list("ways-out", "One of these makes it fit", v_.ways_out);
    list("gains", "What one change would gain", v_.gains);
    list("cautions", "Cautions", v_.cautions);
    list("air", "The air, from the log", v_.air);
    list("assumed", "Assumed", v_.assumptions);
    list("defaults", "Defaults used, where the session says nothing", v_.defaults);
    m_.close().line();
    m_.open("footer").element("p", v_.footer).close().line();
    return m_.take() + "\n";
  }

 private:
  void head() {
    m_.open("head").line();
    m_.empty("meta", {{"charset", "utf-8"}}).line();
    m_.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    m_.line();
    m_.empty("meta", {{"http-equiv", "Content-Security-Policy"},
                      {"content",
                       "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; "
                       "form-action 'none'"}});
    m_.line();
    m_.empty("meta", {{"name", "color-scheme"}, {"content", "light dark"}}).line();
    m_.element("title", v_.title + ", " + v_.date).line();
    m_.open("style").verbatim(html_style()).close().line();
    m_.close().line();
  }

  void card() {
    m_.open("header").open("div", {{"class", "head"}}).line();
    m_.element("p", v_.date + (v_.zone.empty() ? "" : ", times of " + v_.zone),
               {{"class", "date"}});
    m_.element("h1", v_.title).line();
    m_.open("dl", {{"class", "facts"}});
    for (const auto& f : v_.facts) {
      m_.open("div", {{"class", f.alert ? "alert" : ""}}).element("dt", f.label);
      m_.element("dd", f.value);
      if (!f.note.empty()) m_.element("dd", f.note, {{"class", "note"}});
      m_.close().line();
    }
    m_.close().element("p", v_.verdict, {{"class", "verdict"}});
    if (!v_.bottleneck.empty()) m_.element("p", v_.bottleneck, {{"class", "verdict"}});
    m_.close().close().line();
  }

  void alerts() {
    if (v_.warnings.empty() && v_.short_of.empty()) return;
    m_.open("section", {{"class", "alerts"}, {"aria-labelledby", "alerts"}});
    m_.element("h2", v_.warnings.empty() ? "What is short" : "Warnings", {{"id", "alerts"}});
    m_.open("ul").line();
    for (const auto& w : v_.warnings) {
      m_.open("li").element("strong", w.text);
      if (!w.help.empty()) m_.text(" ").element("span", "Help: " + w.help);
      m_.close().line();
    }
    for (const auto& s : v_.short_of) m_.element("li", "Short: " + s).line();
    m_.close().close().line();
  }

  void paper() {
    begin("paper", "The paper");
    for (const auto& s : v_.summary) m_.element("p", s).line();
    if (!v_.paper.empty()) {
      m_.open("ul");
      for (const auto& p : v_.paper) {
        m_.open("li").element("strong", p.heading).text(": " + p.window).close();
      }
      m_.close();
    }
    m_.element("p", v_.touch_test, {{"class", "touch"}});
    end();
  }

  void contents() {
    m_.open("nav", {{"aria-label", "On this sheet"}});
    const auto link = [&](const char* to, const char* words, bool there) {
      if (there) m_.element("a", words, {{"href", std::string("#") + to}});
    };
    link("steps", "Steps", !v_.steps.empty());
    link("day", "Chart", !v_.chart.lanes.empty());
    link("pulls", "Pulls", !v_.pulls.empty());
    link("after", "After the day", !v_.after.empty());
    m_.close().line();
  }

  void steps() {
    if (v_.steps.empty()) return;
    begin("steps", "Steps on the clock");
    m_.open("table", {{"class", "steps"}, {"role", "table"}}).line();
    m_.open("thead", {{"role", "rowgroup"}}).open("tr", {{"role", "row"}});
    for (const auto& [name, kind] : {std::pair("Done", "tick"),
                                     {"At", "at"},
                                     {"Step", "what"},
                                     {"Who", "who"},
                                     {"Takes", "takes"},
                                     {"Really", "real"}}) {
      m_.element("th", name, {{"scope", "col"}, {"role", "columnheader"}, {"class", kind}});
    }
    m_.close().close().line();
    for (const auto& block : v_.steps) {
      m_.open("tbody", {{"role", "rowgroup"}}).line();
      m_.open("tr", {{"role", "row"}, {"class", "goal"}});
      m_.element("th", block.heading,
                 {{"scope", "rowgroup"}, {"role", "rowheader"}, {"colspan", "6"}})
          .close()
          .line();
      for (const auto& row : block.rows) step(row);
      m_.close().line();
    }
    m_.close();
    end();
  }

  void step(const StepRow& row) {
    const bool pause = row.family == Family::pause;
    const std::string who = row.who.empty() ? "by itself" : row.who;
    const Attribute cell{"role", "cell"};
    const std::string what = row.what + (row.where.empty() ? "" : ", " + row.where);
    m_.open("tr", {{"role", "row"}, {"class", pause ? "pause" : row.pull ? "pull" : ""}});
    m_.open("td", {cell, {"class", "tick"}}).open("label").empty("input", {{"type", "checkbox"}});
    m_.element("span", "done: " + row.from + " " + what, {{"class", "vh"}}).close().close();
    m_.open("th", {{"scope", "row"}, {"role", "rowheader"}, {"class", "at"}})
        .element("time", row.from)
        .close();
    m_.open("td", {cell, {"class", "what"}})
        .element("b", pause ? what + " until " + row.until : what);
    if (!row.cue.empty()) m_.element("span", row.cue, {{"class", "cue"}});
    m_.close();
    m_.element("td", who, {cell, {"class", "who"}});
    m_.element("td", row.length, {cell, {"class", "takes"}});
    m_.element("td", "", {cell, {"class", "real"}}).close().line();
  }

  void pictures() {
    if (v_.chart.lanes.empty() && v_.paper.empty()) return;
    begin("day", "The day at a glance");
    m_.open("div", {{"class", "pictures"}}).line();
    if (!v_.chart.lanes.empty()) {
      m_.open("figure");
      chart_svg(m_, v_.chart, "chart");
      m_.open("figcaption");
      key();
      if (!v_.chart.before.empty()) m_.element("p", v_.chart.before);
      m_.close().close().line();
    }
    m_.open("div");
    for (std::size_t i = 0; i < v_.paper.size(); ++i) {
      m_.open("figure").element("h3", v_.paper[i].heading + ": how damp, when");
      moisture_svg(m_, v_.paper[i], "paper" + std::to_string(i + 1));
      m_.element("figcaption",
                 "Heavy line: mean, grams of water per gram of dry paper. Shade round it: eight of "
                 "ten likely sheets. Dashes: the surface. Framed band: printable. Rings: pulls.");
      m_.close().line();
    }
    m_.close().close();
    end();
  }

  void key() {
    m_.open("ul", {{"class", "key"}});
    for (const Family family : v_.chart.key) {
      if (family == Family::pause) continue;
      const auto& name = name_of(family);
      m_.open("li").open("svg", {{"viewBox", "0 0 34 28"}, {"aria-hidden", "true"}});
      m_.empty("rect", {{"x", "1"},
                        {"y", "1"},
                        {"width", "32"},
                        {"height", "26"},
                        {"class", "bar " + std::string(name.css)}});
      m_.element("text", std::string(1, name.letter),
                 {{"x", "17"}, {"y", "19"}, {"class", "word on-" + std::string(name.css)}});
      m_.close().text(std::string(name.name)).close();
    }
    m_.close();
  }

  void pulls() {
    if (v_.pulls.empty()) return;
    begin("pulls", "The pulls");
    m_.element("p", v_.pulls_note);
    m_.open("table", {{"class", "pulls"}, {"role", "table"}}).line();
    m_.open("thead", {{"role", "rowgroup"}}).open("tr", {{"role", "row"}});
    std::vector<const char*> names = {"print",
                                      "plate",
                                      "at",
                                      "printable",
                                      "water, g/g (band)",
                                      "chance",
                                      "growth along / across"};
    if (v_.any_misfit) names.push_back("misfit (chance within)");
    for (const char* name : names) {
      m_.element("th", name, {{"scope", "col"}, {"role", "columnheader"}});
    }
    m_.close().close().line().open("tbody", {{"role", "rowgroup"}}).line();
    for (const auto& p : v_.pulls) {
      m_.open("tr", {{"role", "row"}, {"class", p.note.empty() ? "" : "odd"}});
      m_.element("th", p.number, {{"scope", "row"}, {"role", "rowheader"}});
      std::vector<std::string> cells = {p.plate,
                                        p.at,
                                        p.ready_from + " to " + p.ready_until,
                                        p.moisture + " (" + p.band + ")",
                                        p.chance,
                                        p.along + " / " + p.across};
      if (v_.any_misfit) {
        cells.push_back(p.misfit.empty() ? "first plate" : p.misfit + " (" + p.within + ")");
      }
      for (std::size_t i = 0; i < cells.size(); ++i) {
        m_.element(
            "td", cells[i],
            {{"role", "cell"}, {"class", i == 0 ? "plate" : ""}, {"data-head", names[i + 1]}});
      }
      m_.close().line();
    }
    m_.close().close();
    for (const auto& p : v_.pulls) {
      if (p.note.empty()) continue;
      m_.open("p").element("strong", p.label + ", " + p.plate + ", " + p.at + ": " + p.note + ".");
      m_.close();
    }
    end();
  }

  void after() {
    if (v_.after.empty()) return;
    begin("after", "After the day");
    m_.open("dl", {{"class", "after"}}).line();
    for (const auto& a : v_.after) {
      m_.element("dt", a.when);
      m_.element("dd", a.what + (a.basis.empty() ? "" : " (" + a.basis + ")")).line();
    }
    m_.close();
    end();
  }

  void list(const char* id, const char* heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    begin(id, heading);
    m_.open("ul").line();
    for (const auto& l : lines) m_.element("li", l).line();
    m_.close();
    end();
  }

  void begin(const std::string& id, const char* heading) {
    m_.open("section", {{"id", id}, {"aria-labelledby", id + "-head"}});
    m_.element("h2", heading, {{"id", id + "-head"}}).line();
  }
  void end() { m_.close().line(); }

  const View& v_;
  Markup m_;
};

}  // namespace

std::string plan_html(const View& view) { return Page(view).write(); }

}  // namespace dampline::report
