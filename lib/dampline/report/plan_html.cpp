#include <dampline/report/page_files.hpp>
#include <dampline/report/page_parts.hpp>
#include <dampline/report/plan_html.hpp>

namespace dampline::report {

namespace {

void head(Markup& m, const View& v) {
  m.open("head").line();
  m.empty("meta", {{"charset", "utf-8"}}).line();
  m.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  m.line();
  // Nothing may be fetched, from anywhere; the page's own style and script stand in it.
  m.empty("meta", {{"http-equiv", "Content-Security-Policy"},
                   {"content",
                    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; "
                    "base-uri 'none'; form-action 'none'"}});
  m.line();
  m.empty("meta", {{"name", "color-scheme"}, {"content", "light dark"}}).line();
  m.element("title", v.title + ", " + v.date).line();
  m.open("style").verbatim(page_style()).close().line();
  m.close().line();
}

void card(Markup& m, const View& v) {
  m.open("header").open("div", {{"class", "head"}}).line();
  m.element("p", v.date + (v.zone.empty() ? "" : ", times of " + v.zone), {{"class", "date"}});
  m.element("h1", v.title).line();
  m.open("dl", {{"class", "facts"}});
  for (const auto& f : v.facts) {
    m.open("div", {{"class", f.alert ? "alert" : ""}}).element("dt", f.label);
    m.element("dd", f.value);
    if (!f.note.empty()) m.element("dd", f.note, {{"class", "note"}});
    m.close().line();
  }
  m.close().element("p", v.verdict, {{"class", "verdict"}});
  m.close().close().line();
}

void alerts(Markup& m, const View& v) {
  if (v.warnings.empty() && v.short_of.empty()) return;
  m.open("section", {{"class", "alerts"}, {"aria-labelledby", "alerts"}});
  m.element("h2", v.warnings.empty() ? "What is short" : "Warnings", {{"id", "alerts"}});
  m.open("ul").line();
  for (const auto& w : v.warnings) {
    m.open("li").element("strong", w.text);
    if (!w.help.empty()) m.text(" ").element("span", "Help: " + w.help);
    m.close().line();
  }
  for (const auto& s : v.short_of) m.element("li", "Short: " + s).line();
  m.close().close().line();
}

void contents(Markup& m, const View& v) {
  m.open("nav", {{"aria-label", "On this sheet"}});
  const auto link = [&](const char* to, const char* words, bool there) {
    if (there) m.element("a", words, {{"href", std::string("#") + to}});
  };
  link("steps", "Steps", !v.steps.empty());
  link("ready", "Ready?", true);
  link("fit", "Fits?", !v.fit.empty());
  link("day", "Chart", !v.chart.lanes.empty());
  link("lay-out", "Lay out", !v.lay_out.empty());
  link("after", "After", !v.after.empty());
  m.close().line();
}

void script(Markup& m, const View& v) {
  if (v.script_data.empty()) return;
  m.open("script", {{"type", "application/json"}, {"id", "plan-data"}});
  m.verbatim(v.script_data).close().line();
  m.open("script").verbatim(page_script()).close().line();
}

}  // namespace

std::string plan_html(const View& v) {
  Markup m;
  m.verbatim("<!DOCTYPE html>\n").open("html", {{"lang", "en"}}).line();
  head(m, v);
  m.open("body").line();
  card(m, v);
  m.open("main").line();
  now_section(m, v);
  list_section(m, "late", "Running late", v.late);
  contents(m, v);
  alerts(m, v);
  ready_section(m, v);
  fit_section(m, v);
  steps_section(m, v);
  pictures_section(m, v);
  pulls_section(m, v);
  list_section(m, "lay-out", "To lay out", v.lay_out);
  list_section(m, "paper", "How the paper is treated", v.summary);
  after_section(m, v);
  list_section(m, "next-day", "The next day", v.next_day);
  list_section(m, "cautions", "Cautions", v.cautions);
  record_section(m, v);
  list_section(m, "clash", "What does not go together", v.clashes);
  list_section(m, "ways-out", "One of these makes it fit", v.ways_out);
  list_section(m, "gains", "What one change would gain", v.gains);
  if (!v.bottleneck.empty()) list_section(m, "bottleneck", "What limits the day", {v.bottleneck});
  list_section(m, "air", "The air, from the log", v.air);
  list_section(m, "assumed", "Assumed", v.assumptions);
  list_section(m, "defaults", "Defaults used, where the session says nothing", v.defaults);
  m.close().line();
  m.open("footer").element("p", v.footer).close().line();
  script(m, v);
  return m.take() + "\n";
}

}  // namespace dampline::report
