#include <algorithm>
#include <array>
#include <map>

#include <dampline/report/characters.hpp>
#include <dampline/report/drying.hpp>
#include <dampline/report/text_page.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::DryingCalendar;
using planner::DryingDate;
using std::chrono::days;
using std::chrono::local_days;

struct Letter {
  std::string_view kind;
  char letter;
  std::string_view name;
};
constexpr std::array<Letter, 7> letters = {{{"press", 'P', "at the press"},
                                            {"blotters", 'B', "change blotters"},
                                            {"dry", 'D', "dry"},
                                            {"ink", 'I', "ink dry to the touch"},
                                            {"flatten", 'U', "under boards to flatten"},
                                            {"flat", 'F', "flat"},
                                            {"stack", 'S', "may be stacked"}}};

constexpr int cell = 9;

std::string day_of_month(local_days day) {
  return std::to_string(static_cast<unsigned>(std::chrono::year_month_day(day).day()));
}

/// Weeks from Monday to Sunday, a letter for what falls on a day.
void weeks(TextPage& page, const DryingCalendar& c, const Clock& clock) {
  std::map<local_days, std::string> marks;
  const auto mark = [&](local_days day, std::string_view kind) {
    const auto it =
        std::find_if(letters.begin(), letters.end(), [&](const auto& l) { return l.kind == kind; });
    auto& there = marks[day];
    if (it != letters.end() && there.find(it->letter) == std::string::npos) there += it->letter;
  };
  mark(local_day(clock, c.finished), "press");
  for (const auto& d : c.dates) mark(local_day(clock, d.at), d.kind);
  const auto monday = [](local_days day) {
    return day - days(std::chrono::weekday(day).iso_encoding() - 1);
  };
  page.line("   Mon      Tue      Wed      Thu      Fri      Sat      Sun", Ink::strong);
  const local_days last = marks.rbegin()->first;
  for (local_days week = monday(marks.begin()->first); week <= last; week += days(7)) {
    std::string line = "  ";
    for (int i = 0; i < 7; ++i) {
      const auto day = week + days(i);
      const auto found = marks.find(day);
      const std::string there = found == marks.end() ? "" : found->second;
      line += padded(padded(day_of_month(day), 3, Align::right) + " " + there, cell);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    page.line(line);
  }
  std::string key;
  for (const auto& l : letters) {
    const bool occurs = std::any_of(marks.begin(), marks.end(), [&](const auto& m) {
      return m.second.find(l.letter) != std::string::npos;
    });
    if (occurs)
      key += (key.empty() ? "" : "; ") + std::string(1, l.letter) + " " + std::string(l.name);
  }
  page.paragraph(key + ".", 2, "", Ink::quiet);
}

std::string when(const Clock& clock, Instant at, Instant from) {
  std::string out = short_date_text(clock, at);
  if (at - from < std::chrono::hours(72)) out += ", " + clock_text(clock, at);
  return out;
}

std::string range(const DryingDate& d, const Clock& clock, Instant from) {
  if (!d.early) return "";
  const auto early = when(clock, *d.early, from);
  if (d.is_open && !d.late) return "; not before " + early;
  const auto late = when(clock, *d.late, from) + (d.is_open ? " or later" : "");
  return early == late ? "" : "; between " + early + " and " + late;
}

void date(TextPage& page, const DryingDate& d, const Clock& clock, Instant from) {
  constexpr int margin = 21;
  std::string text = d.what;
  text += range(d, clock, from);
  if (d.due != d.at) {
    text += "; due " + short_date_text(clock, d.due) + ", " + clock_text(clock, d.due);
  }
  if (d.print) {
    text += ". Prints at " + units::text(*d.print) + ", the blotters taken out " +
            units::text(*d.blotter);
  }
  const auto lead = "  " + short_date_text(clock, d.at) + ", " + clock_text(clock, d.at);
  page.paragraph(text + " (" + d.basis + ").", margin, lead,
                 d.kind == "blotters" ? Ink::plain : Ink::strong);
}

}  // namespace

std::string drying_text(const DryingCalendar& c, const Clock& clock, const TextOptions& options) {
  TextPage page(options);
  page.line(page.letters(clean(c.title)) + ": after the press", Ink::strong);
  page.paragraph(std::to_string(c.prints) + (c.prints == 1 ? " print" : " prints") + ", " +
                     (c.way == "boards" ? "between blotters under boards" : "drying: " + c.way) +
                     " from " + date_text(clock, c.finished) + ", " +
                     clock_text(clock, c.finished) + " (" + clean(c.zone) +
                     "). They come from the "
                     "press at " +
                     units::text(c.wet) + " (" + units::fixed(c.wet_low.parts_of_one(), 2) +
                     " to " + units::fixed(c.wet_high.parts_of_one(), 2) + ") and keep " +
                     units::text(c.room) + " in this room.",
                 0);
  page.blank();
  weeks(page, c, clock);
  page.heading("Dates");
  for (const auto& d : c.dates) date(page, d, clock, c.finished);
  page.heading("To know");
  for (const auto& n : c.notes) page.paragraph(n, 4, "  -");
  return page.take();
}

}  // namespace dampline::report
