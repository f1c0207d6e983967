#include <algorithm>
#include <cmath>

#include <dampline/report/characters.hpp>
#include <dampline/report/json.hpp>
#include <dampline/report/studios.hpp>
#include <dampline/report/text_page.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::StudioDay;
using std::chrono::minutes;

std::string of(int planned, int asked) {
  return std::to_string(planned) + "/" + std::to_string(asked);
}

std::string hours(const StudioDay& d) {
  if (!d.dry) return "";
  if (!d.dry_in_time) return "not in " + units::fixed(units::in_hours(*d.dry) / 24, 0) + " d";
  std::string out = units::fixed(units::in_hours(*d.dry), 0);
  if (d.dry_early && d.dry_late) {
    out += " (" + units::fixed(units::in_hours(*d.dry_early), 0) + "-" +
           units::fixed(units::in_hours(*d.dry_late), 0) + ")";
  }
  return out;
}

/// "A 12 degC, 80 %, still"
std::string named(const std::vector<StudioDay>& days, std::size_t i) {
  return std::string(1, static_cast<char>('A' + i)) + " " + days[i].label;
}

int widest_name(const TextPage& page, const std::vector<StudioDay>& days) {
  int width = 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    width = std::max(width, display_width(named(days, i)));
  }
  return std::min(width, page.columns() / 2);
}

void table(TextPage& page, const std::vector<StudioDay>& days, const Clock& clock) {
  const auto time = [&](const std::optional<Instant>& at) {
    return at ? clock_text(clock, *at) : std::string("-");
  };
  const auto whole_minutes = [](const std::optional<units::Duration>& t) {
    return t ? units::fixed(std::floor(units::in_minutes(*t)), 0) : std::string("-");
  };
  std::vector<TextPage::Column> columns = {{"studio"},
                                           {"prints|+proofs"},
                                           {"soak|min", Align::right},
                                           {"wet|from"},
                                           {"first|pull"},
                                           {"done"},
                                           {"open|min", Align::right},
                                           {"damp|g/g"},
                                           {"least|chance", Align::right},
                                           {"misfit|mm", Align::right},
                                           {"dry after|h"}};
  std::vector<std::vector<std::string>> rows;
  constexpr int room_for_names = 100;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const auto& d = days[i];
    const auto name =
        page.columns() < room_for_names ? named(days, i).substr(0, 1) : named(days, i);
    std::string misfit;
    if (d.worst_misfit) misfit = units::fixed(units::in_millimetres(*d.worst_misfit), 2);
    std::string prints = of(d.prints, d.prints_asked);
    if (d.proofs_asked > 0) prints += " " + of(d.proofs, d.proofs_asked);
    rows.push_back({name + (d.own ? " *" : ""), prints, whole_minutes(d.soak), time(d.wet_from),
                    time(d.first_pull), time(d.finish), whole_minutes(d.open_life),
                    d.moisture ? units::fixed(d.moisture->parts_of_one(), 2) : "-",
                    d.least_ready ? chance_text(*d.least_ready) : "-", misfit, hours(d)});
  }
  page.table(columns, rows, 2);
  page.paragraph(
      "* as the session has it. Open: how long a damp sheet stays printable out from "
      "under cover. Least chance: of the pull least likely to find its sheet printable. "
      "Dry: of ten likely prints eight fall in the range.",
      2, "", Ink::quiet);
}

/// The day of each studio on one scale: w wet paper, P printing, U cleaning up.
void chart(TextPage& page, const std::vector<StudioDay>& days, const Clock& clock) {
  std::optional<Instant> from, to;
  for (const auto& d : days) {
    if (d.wet_from && (!from || *d.wet_from < *from)) from = d.wet_from;
    if (d.finish && (!to || *d.finish > *to)) to = d.finish;
  }
  if (!from || !to) return;
  page.heading("The day under each");
  const int label = widest_name(page, days);
  const int room = page.columns() - label - 4;
  const auto span = std::chrono::duration<double, std::ratio<60>>(*to - *from).count();
  const double cell = std::max(5.0, std::ceil(span / room / 5) * 5);  // minutes a letter
  const auto column = [&](Instant at) {
    return static_cast<int>(std::chrono::duration<double, std::ratio<60>>(at - *from).count() /
                            cell);
  };
  const std::string free = page.utf8() ? "\u00B7" : ".";
  for (std::size_t k = 0; k < days.size(); ++k) {
    const auto& d = days[k];
    std::string line = "  " + padded(shortened(page.letters(named(days, k)), label), label) + "  ";
    for (int i = 0; i <= column(*to) && i < room; ++i) {
      std::string letter = free;
      if (d.finish && i <= column(*d.finish)) letter = "U";
      if (d.last_pull && i <= column(*d.last_pull)) letter = "P";
      if (d.first_pull && i < column(*d.first_pull)) letter = "w";
      if (!d.wet_from || i < column(*d.wet_from)) letter = free;
      line += letter;
    }
    page.line(line);
  }
  page.paragraph("From " + clock_text(clock, *from) + "; a letter is " + units::fixed(cell, 0) +
                     " min. w paper wet; P from the first pull to the last; U clean up.",
                 2, "", Ink::quiet);
}

void drying(TextPage& page, const std::vector<StudioDay>& days) {
  double most = 0;
  for (const auto& d : days) {
    for (const auto& t : {d.dry, d.dry_late}) {
      if (t) most = std::max(most, units::in_hours(*t));
    }
  }
  if (!(most > 0)) return;
  page.heading("Paper dry, hours after the finish");
  const int label = widest_name(page, days);
  const int room = page.columns() - label - 4 - 6;
  const auto column = [&](const units::Duration& t) {
    return std::max(1, static_cast<int>(std::lround(units::in_hours(t) / most * room)));
  };
  for (std::size_t k = 0; k < days.size(); ++k) {
    const auto& d = days[k];
    if (!d.dry) continue;
    std::string bar(static_cast<std::size_t>(column(d.dry_late.value_or(*d.dry))), '-');
    std::fill_n(bar.begin(),
                std::min<std::ptrdiff_t>(column(d.dry_early.value_or(*d.dry)), std::ssize(bar)),
                '=');
    bar[std::min(bar.size(), static_cast<std::size_t>(column(*d.dry))) - 1] = '|';
    page.line("  " + padded(shortened(page.letters(named(days, k)), label), label) + "  " + bar +
              " " + units::fixed(units::in_hours(*d.dry), 0));
  }
  page.paragraph("= hardly before; - to where nine of ten are dry; | expected.", 2, "", Ink::quiet);
}

}  // namespace

std::string studios_text(const std::string& title, const std::vector<StudioDay>& days,
                         const Clock& clock, const TextOptions& options) {
  TextPage page(options);
  page.line(page.letters(clean(title)) + ": the same day in " + std::to_string(days.size()) +
                (days.size() == 1 ? " studio" : " studios"),
            Ink::strong);
  page.blank();
  table(page, days, clock);
  chart(page, days, clock);
  drying(page, days);
  return page.take();
}

std::string studios_json(const std::string& title, const std::vector<StudioDay>& days,
                         const Clock& clock) {
  JsonWriter json;
  const auto time = [&](std::string_view name, const std::optional<Instant>& at) {
    json.member(name, at ? std::optional(rfc3339(clock, *at)) : std::nullopt);
  };
  const auto in_minutes = [&](std::string_view name, const std::optional<units::Duration>& t) {
    json.member(name, t ? std::optional(units::in_minutes(*t)) : std::nullopt);
  };
  json.begin_object().member("format", "dampline-compare").member("version", 1);
  json.member("title", title).key("studios").begin_array();
  for (const auto& d : days) {
    json.begin_object().member("studio", d.label).member("own", d.own);
    json.member("prints_planned", d.prints).member("prints_asked", d.prints_asked);
    json.member("proofs_planned", d.proofs).member("proofs_asked", d.proofs_asked);
    time("wet_from", d.wet_from);
    time("first_pull", d.first_pull);
    time("last_pull", d.last_pull);
    time("finish", d.finish);
    in_minutes("soak_minutes", d.soak);
    in_minutes("rest_minutes", d.rest);
    in_minutes("open_minutes", d.open_life);
    json.member("moisture_g_g",
                d.moisture ? std::optional(d.moisture->parts_of_one()) : std::nullopt);
    json.member("least_chance_ready",
                d.least_ready ? std::optional(d.least_ready->parts_of_one()) : std::nullopt);
    json.member("worst_misfit_mm", d.worst_misfit
                                       ? std::optional(units::in_millimetres(*d.worst_misfit))
                                       : std::nullopt);
    in_minutes("dry_minutes", d.dry);
    in_minutes("dry_early_minutes", d.dry_early);
    in_minutes("dry_late_minutes", d.dry_late);
    json.member("dry_in_time", d.dry_in_time).member("warnings", d.warnings);
    json.end_object();
  }
  json.end_array().end_object();
  return json.take();
}

}  // namespace dampline::report
