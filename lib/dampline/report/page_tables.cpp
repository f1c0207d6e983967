#include <dampline/report/page_parts.hpp>
#include <dampline/report/svg.hpp>

namespace dampline::report {

void begin_section(Markup& m, const std::string& id, const char* heading) {
  m.open("section", {{"id", id}, {"aria-labelledby", id + "-head"}});
  m.element("h2", heading, {{"id", id + "-head"}}).line();
}

void end_section(Markup& m) { m.close().line(); }

void list_section(Markup& m, const char* id, const char* heading,
                  const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  begin_section(m, id, heading);
  m.open("ul").line();
  for (const auto& l : lines) m.element("li", l).line();
  m.close();
  end_section(m);
}

void open_table(Markup& m, const char* kind, const std::vector<std::string>& heads) {
  m.open("table", {{"class", kind}, {"role", "table"}}).line();
  m.open("thead", {{"role", "rowgroup"}}).open("tr", {{"role", "row"}});
  for (const auto& head : heads) {
    m.element("th", head, {{"scope", "col"}, {"role", "columnheader"}});
  }
  m.close().close().line().open("tbody", {{"role", "rowgroup"}}).line();
}

void ready_section(Markup& m, const View& v) {
  begin_section(m, "ready", "Is this sheet ready?");
  m.element("p", v.touch_test, {{"class", "touch"}});
  m.open("ul").line();
  for (const auto& line : v.touch_lines) m.element("li", line).line();
  m.close();
  if (!v.sheets.empty()) {
    const std::vector<std::string> heads = {"sheet", "printable", "pulled", "now"};
    open_table(m, "sheets", heads);
    for (const auto& s : v.sheets) {
      m.open("tr", {{"role", "row"}, {"data-sheet", s.sheet}});
      m.element("th", s.sheet, {{"scope", "row"}, {"role", "rowheader"}});
      m.element("td", s.printable, {{"role", "cell"}});
      m.element("td", s.pulls, {{"role", "cell"}});
      m.element("td", "", {{"role", "cell"}, {"class", "by-now"}});
      m.close().line();
    }
    m.close().close();
  }
  end_section(m);
}

void fit_section(Markup& m, const View& v) {
  if (v.fit.empty()) return;
  begin_section(m, "fit", "Will the next plate fit?");
  m.element("p", v.fit, {{"class", "touch"}});
  for (const auto& line : v.fit_notes) m.element("p", line);
  if (v.sketch) {
    m.open("figure");
    register_svg(m, *v.sketch, "register");
    m.element("figcaption", v.sketch->caption).close();
  }
  end_section(m);
}

void pulls_section(Markup& m, const View& v) {
  if (v.pulls.empty()) return;
  begin_section(m, "pulls", "The pulls");
  m.element("p", v.pulls_note);
  std::vector<std::string> names = {
      "print", "plate", "at", "printable", "water, g/g (band)", "chance", "growth along / across"};
  if (v.any_misfit) names.emplace_back("misfit (chance within)");
  open_table(m, "pulls", names);
  for (const auto& p : v.pulls) {
    m.open("tr", {{"role", "row"}, {"class", p.note.empty() ? "" : "odd"}});
    m.element("th", p.number, {{"scope", "row"}, {"role", "rowheader"}});
    std::vector<std::string> cells = {p.plate,
                                      p.at,
                                      p.ready_from + " to " + p.ready_until,
                                      p.moisture + " (" + p.band + ")",
                                      p.chance,
                                      p.along + " / " + p.across};
    if (v.any_misfit) {
      cells.push_back(p.misfit.empty() ? "first plate" : p.misfit + " (" + p.within + ")");
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
      m.element("td", cells[i],
                {{"role", "cell"}, {"class", i == 0 ? "plate" : ""}, {"data-head", names[i + 1]}});
    }
    m.close().line();
  }
  m.close().close();
  for (const auto& p : v.pulls) {
    if (p.note.empty()) continue;
    m.open("p").element("strong", p.label + ", " + p.plate + ", " + p.at + ": " + p.note + ".");
    m.close();
  }
  end_section(m);
}

void after_section(Markup& m, const View& v) {
  if (v.after.empty()) return;
  begin_section(m, "after", "After the day");
  m.open("dl", {{"class", "after"}}).line();
  for (const auto& a : v.after) {
    m.element("dt", a.when).element("dd", a.what).line();
  }
  m.close();
  if (!v.after_basis.empty()) m.element("p", v.after_basis, {{"class", "basis"}});
  end_section(m);
}

void record_section(Markup& m, const View& v) {
  if (v.record.empty()) return;
  begin_section(m, "record", "Record card");
  m.element("p", "To fill in by pencil; dampline log takes it all in.", {{"class", "screen"}});
  const std::vector<std::string> heads = {"print", "sheet", "pulled", "felt", "good?", "note"};
  open_table(m, "record", heads);
  for (const auto& row : v.record) {
    m.open("tr", {{"role", "row"}});
    m.element("th", row.print, {{"scope", "row"}, {"role", "rowheader"}});
    m.element("td", row.sheet, {{"role", "cell"}});
    for (std::size_t i = 2; i < heads.size(); ++i) m.element("td", "", {{"role", "cell"}});
    m.close().line();
  }
  m.close().close();
  m.open("dl", {{"class", "blanks"}}).line();
  for (const char* blank :
       {"Air: time, degrees, % (three times)", "Press, left and right, on its own scale",
        "Sheet weighed dry, blotted, pulled (g)", "Marks along and across, dry and damp (mm)",
        "Ink, and what was added", "Felts"}) {
    m.element("dt", blank).element("dd", "").line();
  }
  m.close();
  end_section(m);
}

}  // namespace dampline::report
