#include <algorithm>

#include <dampline/report/plan_text.hpp>
#include <dampline/report/text_chart.hpp>
#include <dampline/report/text_page.hpp>

namespace dampline::report {

namespace {

constexpr int margin = 2;
constexpr int widest_name = 12;

void head(TextPage& page, const View& v) {
  const std::string title = page.letters(v.title);
  const int room = page.columns() - display_width(v.date) - 2;
  if (display_width(title) <= room) {
    page.pieces({{padded(title, room + 2), Ink::strong}, {v.date, Ink::plain}});
  } else {
    page.paragraph(v.title, 0, "", Ink::strong);
    page.line(v.date);
  }
  page.blank();
  int label = 0, value = 0;
  for (const auto& f : v.facts) {
    label = std::max(label, display_width(f.label));
    value = std::max(value, display_width(f.value));
  }
  for (const auto& f : v.facts) {
    const int used = margin + label + 2 + value + 2;
    const auto lines = wrap(page.letters(f.note), page.columns() - used);
    const std::string shown = padded(f.value, value);
    page.pieces({{std::string(margin, ' ') + padded(f.label, label + 2), Ink::plain},
                 {f.note.empty() ? f.value : shown + "  ", f.alert ? Ink::alert : Ink::strong},
                 {lines.front(), Ink::plain}});
    for (std::size_t i = 1; i < lines.size(); ++i) {
      page.line(std::string(static_cast<std::size_t>(used), ' ') + lines[i]);
    }
  }
  page.blank();
  page.paragraph(v.verdict, margin);
  if (!v.bottleneck.empty()) page.paragraph(v.bottleneck, margin);
}

void paper(TextPage& page, const View& v) {
  if (v.summary.empty() && v.paper.empty()) return;
  page.heading("The paper");
  for (const auto& s : v.summary) page.paragraph(s, margin);
  for (const auto& batch : v.paper)
    page.paragraph(batch.heading + ": " + batch.window, margin + 2, "  -");
  page.paragraph(v.touch_test, margin);
}

struct StepColumns {
  int who = 1;
  int length = 5;
  int what = 0;  ///< width of the step's words
  int cue = 0;   ///< where the cue begins; 0: on lines of its own
  [[nodiscard]] int begin() const { return margin + 5 + 2 + length + 2 + who + 2; }
};

std::string spaces(int count) { return std::string(static_cast<std::size_t>(count), ' '); }

StepColumns step_columns(const TextPage& page, const View& v) {
  StepColumns out;
  for (const auto& block : v.steps) {
    for (const auto& row : block.rows) {
      if (row.family == Family::pause) continue;
      out.who = std::max(out.who, display_width(page.letters(row.who)));
      out.length = std::max(out.length, display_width(row.length));
    }
  }
  out.who = std::min(out.who, widest_name);
  out.what = page.columns() - out.begin();
  constexpr int beside = 82, widest_what = 54;  // narrower, cues stand better on their own lines
  if (out.what >= beside) {
    out.what = std::min(out.what / 2, widest_what);
    out.cue = out.begin() + out.what + 2;
  }
  return out;
}

void step(TextPage& page, const StepRow& row, const StepColumns& columns) {
  std::string what = row.what;
  if (!row.where.empty()) what += " (" + row.where + ")";
  const auto lines = wrap(page.letters(what), columns.what);
  const std::string cue = page.letters(row.cue);
  auto cues = wrap(cue, page.columns() - (columns.cue > 0 ? columns.cue : columns.begin() + 2));
  if (cue.empty()) cues.clear();
  const Ink ink = row.pull ? Ink::strong : Ink::plain;
  const std::string who = page.letters(row.who.empty() ? "-" : row.who);
  const std::string lead = "  " + row.from + "  " +
                           padded(row.length, columns.length, Align::right) + "  " +
                           padded(shortened(who, columns.who), columns.who) + "  ";
  const std::size_t height = columns.cue > 0 ? std::max(lines.size(), cues.size()) : lines.size();
  for (std::size_t i = 0; i < height; ++i) {
    const std::string words = i < lines.size() ? lines[i] : "";
    const bool beside = columns.cue > 0 && i < cues.size();
    page.pieces({{i == 0 ? lead : spaces(columns.begin()), ink},
                 {beside ? padded(words, columns.what + 2) : words, ink},
                 {beside ? cues[i] : "", Ink::quiet}});
  }
  if (columns.cue > 0) return;
  for (const auto& l : cues) page.line(spaces(columns.begin() + 2) + l, Ink::quiet);
}

void pause(TextPage& page, const StepRow& row) {
  const std::string dash = page.utf8() ? "\u2500" : "-";
  const std::string text = " " + row.from + " to " + row.until + "  " + page.letters(row.what) +
                           (row.who.empty() ? "" : " (" + page.letters(row.who) + ")") + " ";
  std::string line = dash;
  line += shortened(text, page.columns() - 2);
  for (int i = display_width(line); i < page.columns(); ++i) line += dash;
  page.line(line, Ink::strong);
}

void steps(TextPage& page, const View& v) {
  if (v.steps.empty()) return;
  page.heading("Steps on the clock");
  const StepColumns columns = step_columns(page, v);
  for (const auto& block : v.steps) {
    page.blank();
    page.paragraph(block.heading, 0, "", Ink::strong);
    for (const auto& row : block.rows) {
      if (row.family == Family::pause) {
        pause(page, row);
      } else {
        step(page, row, columns);
      }
    }
  }
}

void pulls(TextPage& page, const View& v) {
  if (v.pulls.empty()) return;
  page.heading("The pulls");
  std::vector<TextPage::Column> columns = {{"print"},
                                           {"plate"},
                                           {"at"},
                                           {"printable|from-until"},
                                           {"water g/g|mean, band"},
                                           {"chance", Align::right},
                                           {"growth %|along/|across"}};
  if (v.any_misfit) columns.push_back({"misfit mm|(chance|within)"});
  std::vector<std::vector<std::string>> rows;
  for (const auto& p : v.pulls) {
    const auto number = [](const std::string& text) { return text.substr(0, text.find(' ')); };
    std::vector<std::string> row = {p.number,
                                    p.plate,
                                    p.at,
                                    p.ready_from + "-" + p.ready_until,
                                    p.moisture + " " + p.band,
                                    p.chance,
                                    number(p.along) + "/" + number(p.across)};
    if (v.any_misfit) {
      row.push_back(p.misfit.empty() ? "" : number(p.misfit) + " (" + p.within + ")");
    }
    rows.push_back(std::move(row));
  }
  page.table(columns, rows, margin);
  for (const auto& p : v.pulls) {
    if (p.note.empty()) continue;
    page.paragraph(p.label + ", " + p.plate + ", " + p.at + ": " + p.note + ".", margin + 2, "  !",
                   Ink::alert);
  }
  page.paragraph(v.pulls_note, margin, "", Ink::quiet);
}

void list(TextPage& page, std::string_view heading, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  page.heading(heading);
  for (const auto& l : lines) page.paragraph(l, margin + 2, "  -");
}

void warnings(TextPage& page, const View& v) {
  if (v.warnings.empty()) return;
  page.heading("Warnings");
  for (const auto& w : v.warnings) {
    page.paragraph(w.text, margin + 2, "  !", Ink::alert);
    if (!w.help.empty()) page.paragraph("help: " + w.help, margin + 2);
  }
}

void after(TextPage& page, const View& v) {
  if (v.after.empty()) return;
  page.heading("After the day");
  int when = 0;
  for (const auto& a : v.after) when = std::max(when, display_width(a.when));
  for (const auto& a : v.after) {
    const std::string basis = a.basis.empty() ? "" : " (" + a.basis + ")";
    page.paragraph(a.what + basis, margin + when + 2, "  " + a.when);
  }
}

}  // namespace

std::string plan_text(const View& view, const TextOptions& options) {
  TextPage page(options);
  head(page, view);
  list(page, "Running late", view.late);
  list(page, "What is short", view.short_of);
  list(page, "What does not go together", view.clashes);
  list(page, "One of these makes it fit", view.ways_out);
  list(page, "What one change would gain", view.gains);
  warnings(page, view);
  paper(page, view);
  steps(page, view);
  text_chart(page, view.chart);
  pulls(page, view);
  after(page, view);
  list(page, "The next day", view.next_day);
  list(page, "Cautions", view.cautions);
  list(page, "The air, from the log", view.air);
  list(page, "Assumed", view.assumptions);
  list(page, "Defaults used, where the session says nothing", view.defaults);
  page.blank();
  page.paragraph(view.footer, 0);
  return page.take();
}

}  // namespace dampline::report
