#include <algorithm>

#include <dampline/report/page_parts.hpp>

namespace dampline::report {

namespace {

void step(Markup& m, const StepRow& row) {
  const bool pause = row.family == Family::pause;
  const std::string who = row.who.empty() ? "by itself" : row.who;
  const Attribute cell{"role", "cell"};
  const std::string what = row.what + (row.where.empty() ? "" : ", " + row.where);
  m.open("tr", {{"role", "row"},
                {"class", pause      ? "pause"
                          : row.pull ? "pull"
                                     : ""},
                {"data-step", row.id}});
  m.open("td", {cell, {"class", "tick"}}).open("label").empty("input", {{"type", "checkbox"}});
  m.element("span", "done: " + row.from + " " + what, {{"class", "vh"}}).close().close();
  m.open("th", {{"scope", "row"}, {"role", "rowheader"}, {"class", "at"}})
      .element("time", row.from)
      .close();
  m.open("td", {cell, {"class", "what"}}).element("b", pause ? what + " until " + row.until : what);
  if (!row.cue.empty()) m.element("span", row.cue, {{"class", "cue"}});
  m.close();
  m.element("td", who, {cell, {"class", "who"}});
  m.element("td", row.length, {cell, {"class", "takes"}});
  m.element("td", "", {cell, {"class", "real"}}).close().line();
}

void button(Markup& m, const char* id, const char* words) {
  m.element("button", words, {{"type", "button"}, {"id", id}});
}

void late_panel(Markup& m) {
  m.open("div", {{"id", "late-panel"}, {"class", "panel"}, {"hidden", "hidden"}});
  m.element("h3", "I am late").line();
  m.element("p", "", {{"id", "late-behind"}});
  m.open("p", {{"class", "buttons"}});
  button(m, "late-rest", "Move the rest");
  for (const char* minutes : {"5", "10", "30"}) {
    m.element("button", "+" + std::string(minutes) + " min",
              {{"type", "button"}, {"data-late", minutes}});
  }
  m.close().element("p", "", {{"id", "late-finish"}});
  m.open("ul", {{"id", "late-risk"}}).close();
  m.element("p",
            "The page only moves what is left by as many minutes. It does not see breaks, hired "
            "hours or ink that dries: only dampline late plans anew, and it reads what was done "
            "below.");
  m.close().line();
}

void done_panel(Markup& m) {
  m.open("div", {{"id", "done-panel"}, {"class", "panel"}, {"hidden", "hidden"}});
  m.element("h3", "What was done").line();
  m.open("label", {{"for", "done-text"}})
      .text("Kept on this device. One line a step: begun, done.")
      .close();
  m.element("textarea", "", {{"id", "done-text"}, {"readonly", "readonly"}, {"rows", "8"}});
  m.open("p", {{"class", "buttons"}});
  button(m, "done-copy", "Copy");
  button(m, "done-save", "Save as a file");
  m.close().element("p", "Then, with your session file:");
  m.open("ul", {{"class", "commands"}});
  m.open("li").element("code", "dampline log import done.txt --session your-day.toml").close();
  m.open("li").element("code", "", {{"id", "done-late"}}).close();
  m.close().close().line();
}

}  // namespace

void now_section(Markup& m, const View& v) {
  if (v.script_data.empty()) return;
  m.open("section", {{"id", "now"}, {"aria-labelledby", "now-head"}, {"hidden", "hidden"}});
  m.element("h2", "Now", {{"id", "now-head"}}).line();
  m.element("p", "", {{"id", "clock"}, {"role", "timer"}});
  m.element("p", "", {{"id", "state"}});
  m.open("p", {{"id", "rehearse"}, {"class", "buttons"}, {"hidden", "hidden"}});
  button(m, "begin-now", "Rehearse: begin now");
  m.close().line();
  m.open("p", {{"id", "catch-up"}, {"class", "buttons"}, {"hidden", "hidden"}});
  button(m, "as-planned", "All until now went as planned");
  m.close().line();
  m.open("div", {{"id", "hands"}}).close().line();
  m.element("p", "", {{"id", "told"}, {"role", "status"}});
  m.open("p", {{"class", "buttons"}});
  button(m, "undo", "Undo");
  m.element("button", "I am late",
            {{"type", "button"}, {"id", "late-open"}, {"aria-expanded", "false"}});
  m.element("button", "Alarm: off",
            {{"type", "button"}, {"id", "alarm"}, {"aria-pressed", "false"}});
  m.element("button", "What was done",
            {{"type", "button"}, {"id", "done-open"}, {"aria-expanded", "false"}});
  m.close().line();
  late_panel(m);
  done_panel(m);
  end_section(m);
}

void steps_section(Markup& m, const View& v) {
  if (v.steps.empty()) return;
  begin_section(m, "steps", "Steps on the clock");
  m.open("noscript");
  m.element("p",
            "Scripts are off here: the day is all on this page, and the boxes can be ticked. The "
            "running clock and alarms need scripts; the calendar (--ics) does not.",
            {{"class", "screen"}});
  m.close().line();
  // One pair of hands needs no column that says whose.
  const auto persons = std::count_if(v.chart.lanes.begin(), v.chart.lanes.end(), [](const auto& l) {
    return l.kind == planner::ResourceKind::person;
  });
  m.open("table", {{"class", persons > 1 ? "steps" : "steps alone"}, {"role", "table"}}).line();
  m.open("thead", {{"role", "rowgroup"}}).open("tr", {{"role", "row"}});
  for (const auto& [name, kind] : {std::pair("Done", "tick"),
                                   {"At", "at"},
                                   {"Step", "what"},
                                   {"Who", "who"},
                                   {"Takes", "takes"},
                                   {"Really", "real"}}) {
    m.element("th", name, {{"scope", "col"}, {"role", "columnheader"}, {"class", kind}});
  }
  m.close().close().line();
  for (const auto& block : v.steps) {
    m.open("tbody", {{"role", "rowgroup"}}).line();
    m.open("tr", {{"role", "row"}, {"class", "goal"}});
    m.element("th", block.heading, {{"scope", "rowgroup"}, {"role", "rowheader"}, {"colspan", "6"}})
        .close()
        .line();
    for (const auto& row : block.rows) step(m, row);
    m.close().line();
  }
  m.close();
  end_section(m);
}

}  // namespace dampline::report
