#include <algorithm>

#include <dampline/planner/builder.hpp>

namespace dampline::planner {

void Builder::set_up() {
  const int paper_hand = teams_.front().handler;
  lay_out_ = activity({"lay-out", {part("lay-out", paper_hand)}});
  tear_ = lay_out_;  // sheets damped or printed before the day were torn then
  if (!t_.before_day && s_.edition.printed.empty()) {
    const int sheets = static_cast<int>(d_.sheets.size());
    Part tear = part("tear", paper_hand, no_plate, sheets);
    tear.what += ": " + std::to_string(sheets);
    tear_ = activity({"tear", {tear}});
    in_turn(lay_out_, tear_);
  }
  if (s_.equipment.hot_plate && warms()) {
    Part on = part("hot-plate", -1);
    on.uses.push_back({ix_.hot_plate, 1});
    hot_plate_ = activity({"hot-plate", {on}});
    in_turn(lay_out_, hot_plate_);
  }
  std::vector<int> clean;  // by the paper hand, before anybody's ink
  if (!s_.edition.sheet_each && s_.edition.order.size() > 1) {
    clean.push_back(activity({"register-sheet", {part("register-sheet", paper_hand)}}));
  }
  for (std::size_t p = 0; p < ix_.press.size(); ++p) {
    const int by = press_hand(static_cast<int>(p));
    if (by < 0) continue;
    const auto name = s_.equipment.presses[p].name;
    Part blankets = part("blankets", by);
    Part set = part("set-press", by);
    for (auto* one : {&blankets, &set}) {
      one->uses.push_back({ix_.press[p], 1});
      one->what += " (" + name + ")";
    }
    const int a = activity({"set-press-" + name, {blankets, set}});
    const bool beside = lanes_.size() > 1 && static_cast<int>(p) != lanes_.front().press;
    if (beside) {  // printing elsewhere does not wait for it
      other_press_set_[static_cast<int>(p)] = a;
      in_turn(lay_out_, a);
    } else {
      clean.push_back(a);
    }
  }
  for (const int a : clean) in_turn(lay_out_, a);
  before_printing_ = clean;
  for (std::size_t i = 0; i < s_.plates.size(); ++i) {
    if (today_[i]) mix_ink(static_cast<int>(i), clean);
  }
}

bool Builder::warms() const {
  return std::any_of(s_.plates.begin(), s_.plates.end(), [&](const auto& plate) {
    if (!today_[static_cast<std::size_t>(&plate - s_.plates.data())]) return false;
    const auto steps = charging(craft_, plate.process, plate.extras);
    return std::find(steps.begin(), steps.end(), "warm") != steps.end();
  });
}

int Builder::press_hand(int press) const {
  for (std::size_t i = 0; i < teams_.size(); ++i) {
    if (today_[i] && teams_[i].press == press) return teams_[i].handler;
  }
  for (const auto& lane : lanes_) {
    if (lane.press == press) return lane.handler;
  }
  return -1;
}

void Builder::mix_ink(int plate, const std::vector<int>& clean) {
  const auto& team = teams_[static_cast<std::size_t>(plate)];
  Part p = part("mix-ink", team.inker, plate);
  p.what += " for " + p.plate;
  const int a = activity({"mix-ink-" + p.plate, {p}});
  in_turn(lay_out_, a);
  // Whoever does both gets the clean work of setting up done before touching ink.
  for (const int c : clean) {
    if (held_by(c, team.inker)) in_turn(c, a);
  }
  if (held_by(tear_, team.inker)) in_turn(tear_, a);
  mixed_[plate] = a;
}

void Builder::clean_up() {
  std::map<int, std::vector<int>> cleaned;  // plates, by whoever inked them
  for (std::size_t i = 0; i < s_.plates.size(); ++i) {
    if (!today_[i]) continue;
    const auto& team = teams_[i];
    Part p = part("clean-plate", team.inker, static_cast<int>(i));
    p.what += ": " + p.plate;
    p.uses.push_back({ix_.plate[i], 1});
    const int a = activity({"clean-plate-" + p.plate, {p}});
    for (const auto& pull : d_.pulls) {
      if (pull.plate == static_cast<int>(i)) in_turn(pull.lifted.activity, a);
    }
    cleaned[team.inker].push_back(a);
  }
  std::vector<int> people;  // in the order of the plates
  for (std::size_t i = 0; i < teams_.size(); ++i) {
    const int inker = teams_[i].inker;
    const bool new_one = std::find(people.begin(), people.end(), inker) == people.end();
    if (today_[i] && new_one) people.push_back(inker);
  }
  for (const int person : people) {
    // Shared by those who inked.
    Part p = part("clean-slab", person, no_plate, 1.0 / static_cast<double>(people.size()));
    const int a = activity({"clean-slab-" + s_.people[static_cast<std::size_t>(person)].name, {p}});
    for (const int plate : cleaned[person]) in_turn(plate, a);
  }
  for (std::size_t p = 0; p < ix_.press.size(); ++p) {
    const int by = press_hand(static_cast<int>(p));
    if (by < 0) continue;
    Part close = part("close-press", by);
    close.what += " (" + s_.equipment.presses[p].name + ")";
    close.uses.push_back({ix_.press[p], 1});
    const int a = activity({"close-press-" + s_.equipment.presses[p].name, {close}});
    for (const auto& pull : d_.pulls) {
      if (pull.press == static_cast<int>(p)) in_turn(pull.lifted.activity, a);
    }
  }
}

}  // namespace dampline::planner
