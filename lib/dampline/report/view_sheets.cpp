#include <algorithm>
#include <map>

#include <dampline/report/characters.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::Plan;

std::string plural(int count, const char* one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

/// What a chance is called; the words are ours, and the number stands beside them.
const char* likely(double chance) {
  if (chance >= 0.9) return "Yes, very likely";
  if (chance >= 0.7) return "Yes, likely";
  if (chance >= 0.5) return "Rather yes than no";
  return "Rather not";
}

}  // namespace

void add_sheets(const Plan& plan, const Clock&, View& v) {
  v.touch_lines = {
      "Limp, cool to the back of the hand, no shine: print it.",
      "A shine, or water at the fingers: too wet. Between dry blotters once more, then back under "
      "cover.",
      "Stiff, warm, paler at the rim: too dry. Mist it lightly, cover it, and give it time to even "
      "out."};
  std::map<int, SheetRow> sheets;
  for (std::size_t i = 0; i < plan.pulls.size(); ++i) {
    const auto& row = v.pulls[i];
    auto& sheet = sheets[plan.pulls[i].sheet];
    if (sheet.sheet.empty()) {
      sheet.sheet = row.sheet;
      sheet.printable = row.ready_from + " to " + row.ready_until;
      v.record.push_back({row.number, row.sheet});
    } else {
      sheet.pulls += ", ";
    }
    sheet.pulls += row.plate + " " + row.at;
  }
  for (auto& [number, sheet] : sheets) {
    if (number > 0) v.sheets.push_back(std::move(sheet));
  }
}

void add_fit(const Plan& plan, View& v) {
  const planner::Pull* worst = nullptr;
  int later = 0, good = 0;
  for (const auto& pull : plan.pulls) {
    if (!pull.misfit) continue;
    ++later;
    if (pull.misfit->within.parts_of_one() >= 0.5) ++good;
    if (worst == nullptr ||
        pull.misfit->within.parts_of_one() < worst->misfit->within.parts_of_one()) {
      worst = &pull;
    }
  }
  if (worst == nullptr) return;
  const auto& misfit = *worst->misfit;
  v.fit = std::string(likely(misfit.within.parts_of_one())) + ": " + clean(worst->plate) +
          " lies about " + units::fixed(units::in_millimetres(misfit.worst), 2) +
          " mm off at its worst corner, and stays within the tolerance on " +
          chance_text(misfit.within) + " of likely sheets.";
  v.fit_notes.push_back("That is the doubtful one, " + print_label(worst->print, worst->proof) +
                        "; " + std::to_string(good) + " of " + plural(later, "later pull") +
                        " are more likely in register than not.");
  for (const auto& line : plan.summary) {
    if (line.find("may wait") != std::string::npos) v.fit_notes.push_back(clean(line));
  }
}

}  // namespace dampline::report
