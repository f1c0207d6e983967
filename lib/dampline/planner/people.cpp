#include <algorithm>
#include <set>

#include <dampline/planner/people.hpp>
#include <dampline/planner/today.hpp>
#include <dampline/session/words.hpp>

namespace dampline::planner {
namespace {

int index_of_person(const session::Session& s, const std::string& name) {
  for (std::size_t i = 0; i < s.people.size(); ++i) {
    if (s.people[i].name == name) return static_cast<int>(i);
  }
  return -1;
}

int index_of_press(const session::Session& s, const std::string& name) {
  for (std::size_t i = 0; i < s.equipment.presses.size(); ++i) {
    if (s.equipment.presses[i].name == name) return static_cast<int>(i);
  }
  return 0;
}

// The paper hand for work inked by `inker`: somebody else where there is one, best somebody who
// does nothing but paper.
int handler_beside(const session::Session& s, int inker) {
  int chosen = -1;
  for (const int person : paper_hands(s)) {
    if (person == inker) continue;
    const bool only_paper = !s.people[static_cast<std::size_t>(person)].inks;
    if (chosen < 0 || (only_paper && s.people[static_cast<std::size_t>(chosen)].inks)) {
      chosen = person;
    }
  }
  return chosen < 0 ? inker : chosen;
}

// Those who ink, when one of the able is kept clean for the paper.
std::vector<int> inkers_kept(const session::Session& s) {
  auto inkers = inky_hands(s);
  const bool somebody_only_for_paper = std::any_of(
      s.people.begin(), s.people.end(), [](const auto& p) { return p.handles_paper && !p.inks; });
  if (inkers.size() > 1 && !somebody_only_for_paper) {
    const int kept = handler_beside(s, inkers.front());
    std::erase(inkers, kept);
  }
  return inkers;
}

// A bed that is not stated is taken to be large enough.
bool takes(const std::optional<units::Size>& bed, const units::Size& sheet) {
  return !bed || session::lies_on(sheet, *bed);
}

}  // namespace

std::vector<int> paper_hands(const session::Session& s) {
  std::vector<int> hands;
  for (std::size_t i = 0; i < s.people.size(); ++i) {
    if (s.people[i].handles_paper) hands.push_back(static_cast<int>(i));
  }
  return hands;
}

std::vector<int> inky_hands(const session::Session& s) {
  std::vector<int> hands;
  for (std::size_t i = 0; i < s.people.size(); ++i) {
    if (s.people[i].inks) hands.push_back(static_cast<int>(i));
  }
  return hands;
}

std::vector<Team> teams(const session::Session& s) {
  const auto inkers = inkers_kept(s);
  const int presses = static_cast<int>(s.equipment.presses.size());
  std::vector<Team> out;
  for (std::size_t i = 0; i < s.plates.size(); ++i) {
    const auto& plate = s.plates[i];
    Team team;
    const int own = plate.printer ? index_of_person(s, *plate.printer) : -1;
    team.inker = own >= 0 ? own : inkers[i % inkers.size()];
    if (!s.people[static_cast<std::size_t>(team.inker)].inks) team.inker = inkers.front();
    const bool own_paper = own >= 0 && s.people[static_cast<std::size_t>(own)].handles_paper;
    team.handler = own_paper ? own : handler_beside(s, team.inker);
    if (plate.press) {
      team.press = index_of_press(s, *plate.press);
    } else if (s.edition.sheet_each) {
      team.press = static_cast<int>(i) % std::max(presses, 1);
    }
    if (!s.edition.sheet_each && !out.empty()) {
      team.handler = out.front().handler;
      const bool own_press = plate.press && s.edition.between != session::Between::held;
      if (!own_press) team.press = out.front().press;
    }
    out.push_back(team);
  }
  return out;
}

std::vector<Lane> lanes(const session::Session& s) {
  const auto all = teams(s);
  std::vector<Lane> out{{all.front().press, all.front().handler}};
  std::set<int> busy{out.front().handler};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto& plate = s.plates[i];
    if (!is_today(s, plate.name)) continue;
    if (s.edition.sheet_each || plate.press || plate.printer) return out;
    busy.insert(all[i].inker);
  }
  auto hands = paper_hands(s);
  std::erase_if(hands, [&](int person) { return busy.contains(person); });
  for (std::size_t p = 0; p < s.equipment.presses.size(); ++p) {
    const auto& press = s.equipment.presses[p];
    const bool fits = takes(press.bed, s.paper.sheet) && takes(press.blankets, s.paper.sheet);
    if (static_cast<int>(p) == out.front().press || !fits || hands.empty()) continue;
    out.push_back({static_cast<int>(p), hands.front()});
    hands.erase(hands.begin());
  }
  return out;
}

}  // namespace dampline::planner
