#include <algorithm>

#include <dampline/report/pdf.hpp>
#include <dampline/report/plan_pdf.hpp>

namespace dampline::report {

namespace {

// Points. Letter is 50 shorter than A4: top and bottom keep clear of what it cuts off.
constexpr double left = 40, right = Pdf::width - 40, top = Pdf::height - 66, bottom = 76;
constexpr double step_size = 14, time_size = 17, cue_size = 11.5, small = 11;
constexpr double at_time = left + 24, at_what = left + 112, at_real = right - 62;

class Sheet {
 public:
  explicit Sheet(const View& view) : v_(view) { turn(); }

  std::string write() {
    head();
    for (const auto& block : v_.steps) steps(block);
    pulls();
    after();
    list("Cautions", v_.cautions);
    feet();
    return pdf_.take(v_.title);
  }

 private:
  void turn() {
    pdf_.new_page();
    y_ = top;
  }
  void need(double tall) {
    if (y_ - tall < bottom) turn();
  }
  void paragraph(const std::string& words, double x, double size, Font font, double until = right) {
    for (const auto& line : text_lines(words, size, font, until - x)) {
      need(size * 1.25);
      y_ -= size * 1.25;
      pdf_.text(x, y_, size, font, line);
    }
  }
  void heading(const std::string& words, double room) {
    need(40 + room);
    y_ -= 14;
    pdf_.line(left, y_, right, y_, 1.2);
    paragraph(words, left, 15, Font::bold);
    y_ -= 6;
  }

  void head() {
    paragraph(v_.title, left, 22, Font::bold);
    paragraph(v_.date + ", " + v_.zone, left, 13, Font::regular);
    y_ -= 6;
    for (const auto& f : v_.facts) {
      need(22);
      y_ -= 21;
      pdf_.text(left, y_, step_size, Font::regular, f.label);
      pdf_.text(left + 130, y_, time_size, Font::bold, f.value);
      if (!f.note.empty()) pdf_.text(left + 200, y_, step_size, Font::regular, f.note);
    }
    y_ -= 6;
    paragraph(v_.verdict, left, 12.5, Font::regular);
    for (const auto& w : v_.warnings) paragraph("! " + w.text, left, 12.5, Font::bold);
    for (const auto& s : v_.summary) paragraph(s, left, small, Font::regular);
    paragraph(v_.touch_test, left, 12.5, Font::bold);
  }

  void steps(const StepBlock& block) {
    heading(block.heading, 30);
    for (const auto& row : block.rows) step(row);
  }

  /// A step is never cut by the end of a page.
  void step(const StepRow& row) {
    const Font font = row.pull ? Font::bold : Font::regular;
    std::string what = row.what;
    if (!row.where.empty()) what += " (" + row.where + ")";
    const std::string note = row.length + (row.who.empty() ? "" : ", " + row.who);
    const double until = at_real - 10 - at_what;
    const auto lines = text_lines(what, step_size, font, until);
    const auto cues = text_lines(row.cue, cue_size, Font::slanted, until);
    const double tall = 18.0 * static_cast<double>(lines.size()) +
                        (row.cue.empty() ? 0 : 14.5 * static_cast<double>(cues.size())) + 7;
    need(tall + 6);
    if (row.family == Family::pause) pdf_.fill(left, y_ - tall, right - left, tall, 0.9);
    double y = y_ - 17;
    pdf_.box(left, y - 2, 14, 14, 1.2);
    pdf_.text(at_time, y, time_size, Font::bold, row.from);
    pdf_.text(at_time, y - 13, small - 1.5, Font::regular, note);
    pdf_.line(at_real, y - 3, right, y - 3, 0.6, 0.4);
    for (const auto& line : lines) {
      pdf_.text(at_what, y, step_size, font, line);
      y -= 18;
    }
    if (!row.cue.empty()) {
      for (const auto& line : cues) {
        pdf_.text(at_what, y + 2, cue_size, Font::slanted, line);
        y -= 14.5;
      }
    }
    y_ -= std::max(tall, 36.0);
    pdf_.line(left, y_, right, y_, 0.4, 0.6);
  }

  void pulls() {
    if (v_.pulls.empty()) return;
    heading("The pulls", 60);
    const double columns[] = {left, left + 74, left + 170, left + 222, left + 340, left + 420};
    const auto row = [&](const std::vector<std::string>& cells, Font font) {
      need(18);
      y_ -= 17;
      for (std::size_t i = 0; i < cells.size(); ++i) {
        pdf_.text(columns[i], y_, 12, font, text_lines(cells[i], 12, font, 116).front());
      }
    };
    row({"print", "plate", "at", "printable", "chance", v_.any_misfit ? "misfit" : ""}, Font::bold);
    for (const auto& p : v_.pulls) {
      row({p.number, p.plate, p.at, p.ready_from + " to " + p.ready_until, p.chance, p.misfit},
          Font::regular);
    }
  }

  void after() {
    if (v_.after.empty()) return;
    heading("After the day", 40);
    for (const auto& a : v_.after) {
      need(34);
      pdf_.box(left, y_ - 15, 12, 12, 1);
      pdf_.text(left + 20, y_ - 14, 12.5, Font::bold, a.when);
      paragraph(a.what, left + 150, 12.5, Font::regular);
      y_ -= 4;
    }
  }

  void list(const std::string& name, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    heading(name, 30);
    for (const auto& line : lines) paragraph(line, left, 12, Font::regular);
  }

  void feet() {
    for (std::size_t i = 0; i < pdf_.pages(); ++i) {
      pdf_.choose(i);
      const std::string number =
          "page " + std::to_string(i + 1) + " of " + std::to_string(pdf_.pages());
      pdf_.text(right - text_width(number, small, Font::regular), bottom - 22, small, Font::regular,
                number);
      pdf_.text(at_real, top + 6, small - 1, Font::regular, "real time");
      double y = bottom - 12;
      for (const auto& line : text_lines(v_.footer, 8.5, Font::regular, right - left - 90)) {
        y -= 10;
        pdf_.text(left, y, 8.5, Font::regular, line);
      }
    }
  }

  const View& v_;
  Pdf pdf_;
  double y_ = top;
};

}  // namespace

std::string plan_pdf(const View& view) { return Sheet(view).write(); }

}  // namespace dampline::report
