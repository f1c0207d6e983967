#include <algorithm>

#include <dampline/planner/builder.hpp>

namespace dampline::planner {

void Builder::print() {
  freed_.resize(s_.plates.size());
  since_square_.assign(s_.equipment.presses.size(), 0);
  since_dry_ = since_square_;
  for (std::size_t i = 0; i < d_.pulls.size();) {
    PressRun run;
    run.first = i;
    run.end = i + 1;
    while (run.end < d_.pulls.size() && d_.pulls[run.end].sheet == d_.pulls[i].sheet &&
           s_.edition.between == session::Between::held) {
      ++run.end;
    }
    for (std::size_t k = run.first; k < run.end; ++k) run.charged.push_back(charge(d_.pulls[k]));
    const auto& lead = d_.pulls[run.first];
    const int by = lead.printer;
    run.block.id = "print-" + std::to_string(lead.print);
    if (!lead.first_on_sheet) {
      run.block.id += "-" + s_.plates[static_cast<std::size_t>(lead.plate)].name;
    }
    wash_first(run.block, by);
    for (const auto& part : run.block.parts) run.length += part.length;
    tend_press(run, by);
    lay_and_pull(run, by);
    lift_and_lay_away(run, by);
    tie(run, activity(run.block));
    i = run.end;
  }
}

int Builder::charge(const DraftPull& pull) {
  const auto plate = static_cast<std::size_t>(pull.plate);
  const auto& team = teams_[plate];
  Block block{"ink-" + std::to_string(pull.print) + "-" + s_.plates[plate].name, {}};
  for (const auto& kind : charging(craft_, s_.plates[plate].process, s_.plates[plate].extras)) {
    if (kind == "warm" && !s_.equipment.hot_plate) continue;
    Part p = part(kind, team.inker, pull.plate);
    p.print = pull.print;
    p.what += ": " + p.plate + ", print " + std::to_string(pull.print);
    p.uses.push_back({ix_.plate[plate], 1});
    if (kind == "warm") p.uses.push_back({ix_.hot_plate, 1});
    block.parts.push_back(p);
  }
  const int a = activity(block);
  in_turn(mixed_.at(pull.plate), a);
  if (hot_plate_ >= 0) in_turn(hot_plate_, a);
  const auto copies = static_cast<std::size_t>(s_.plates[plate].copies);
  const auto& off = freed_[plate];
  if (off.size() >= copies) least(off[off.size() - copies], {a, {}}, HalfMinutes(0));
  if (const auto before = last_charge_.find(pull.plate); before != last_charge_.end()) {
    in_turn(before->second, a);
  }
  last_charge_[pull.plate] = a;
  d_.movable_later.push_back(a);
  return a;
}

HalfMinutes Builder::open_time(int plate) const {
  const auto& ink = s_.plates[static_cast<std::size_t>(plate)].ink;
  return half_minutes(open_time_of(craft_, ink).comfortable);
}

void Builder::add(PressRun& run, Part part, const DraftPull& pull) const {
  part.print = pull.print;
  part.sheets = {pull.sheet};
  part.uses.push_back({ix_.press[static_cast<std::size_t>(pull.press)], 1});
  run.length += part.length;
  run.block.parts.push_back(std::move(part));
}

void Builder::tend_press(PressRun& run, int by) {
  const auto& lead = d_.pulls[run.first];
  const auto p = static_cast<std::size_t>(lead.press);
  const auto tend = [&](std::vector<int>& since, std::optional<int> lasts, const char* kind) {
    if (lasts && since[p] >= *lasts) {
      add(run, part(kind, by), lead);
      run.block.parts.back().sheets.clear();
      since[p] = 0;
    }
    since[p] += static_cast<int>(run.end - run.first);
  };
  tend(since_square_, s_.equipment.presses[p].square_after, "square-blankets");
  tend(since_dry_, t_.catcher_lasts, "swap-catcher");
}

void Builder::lay_and_pull(PressRun& run, int by) const {
  for (std::size_t i = run.first; i < run.end; ++i) {
    const auto& pull = d_.pulls[i];
    const Use plate{ix_.plate[static_cast<std::size_t>(pull.plate)], 1};
    const auto label = ": " + s_.plates[static_cast<std::size_t>(pull.plate)].name + ", print " +
                       std::to_string(pull.print);
    const bool first = i == run.first;
    const auto& extras = s_.plates[static_cast<std::size_t>(pull.plate)].extras;
    for (const auto& kind : laying(craft_, extras)) {
      Part before = part(kind, by, pull.plate);
      before.what += label;
      before.uses.push_back(plate);
      add(run, before, pull);
    }
    Part place = part(first ? "place" : "change-plate", by, pull.plate);
    place.what += label;
    place.uses.push_back(plate);
    run.laid.push_back(first ? run.length : run.length + place.length);
    if (!first) run.off.push_back(run.length + place.length);
    add(run, place, pull);
    Part pass = part("pull", by, pull.plate);
    pass.what += label;
    pass.uses.push_back(plate);
    run.pulled.push_back(run.length);
    add(run, pass, pull);
  }
}

void Builder::lift_and_lay_away(PressRun& run, int by) const {
  const auto& last = d_.pulls[run.end - 1];
  const bool more_to_come = run.end < d_.pulls.size() && d_.pulls[run.end].sheet == last.sheet;
  Part lift = part("lift", by, last.plate);
  lift.what += ": print " + std::to_string(last.print);
  lift.uses.push_back({ix_.plate[static_cast<std::size_t>(last.plate)], 1});
  add(run, lift, last);
  run.off.push_back(run.length);
  if (!more_to_come && last.proof) add(run, part("judge", by), last);
  Part away = part(more_to_come ? "cover" : "lay-away", by, last.plate);
  away.plate.clear();
  if (!more_to_come) {
    away.what += ": print " + std::to_string(last.print);
    if (ix_.drying >= 0) away.uses.push_back({ix_.drying, 1});
  }
  add(run, away, last);
}

void Builder::tie(const PressRun& run, int a) {
  const auto& lead = d_.pulls[run.first];
  for (const int ready : before_printing_) in_turn(ready, a);
  if (const auto set = other_press_set_.find(lead.press); set != other_press_set_.end()) {
    in_turn(set->second, a);
  }
  for (std::size_t i = run.first; i < run.end; ++i) {
    auto& pull = d_.pulls[i];
    const std::size_t k = i - run.first;
    pull.laid = {a, run.laid[k]};
    pull.pulled = {a, run.pulled[k]};
    pull.lifted = {a, run.off[k]};
    in_turn(run.charged[k], a);
    pull.inked = end_of(run.charged[k]);
    most(pull.inked, pull.pulled, open_time(pull.plate));
    freed_[static_cast<std::size_t>(pull.plate)].push_back(pull.lifted);
    const auto& sheet = d_.sheets[static_cast<std::size_t>(pull.sheet - 1)];
    if (const auto own = t_.of_sheet.find(pull.sheet); own != t_.of_sheet.end()) {
      least({d_.problem.source, {}}, pull.pulled, own->second.from);
      most({d_.problem.source, {}}, pull.pulled, own->second.until);
    } else {
      least(sheet.covered, pull.pulled, t_.opens);
      most(sheet.covered, pull.pulled, t_.closes);
    }
    if (pull.first_on_sheet) {
      first_on_sheet_[pull.sheet] = pull.pulled;
    } else if (t_.most_between && i == run.first) {
      most(first_on_sheet_.at(pull.sheet), pull.pulled, *t_.most_between);
    }
  }
  const auto after = [&](auto& last, const auto& key) {
    if (const auto before = last.find(key); before != last.end()) in_turn(before->second, a);
    last[key] = a;
  };
  after(last_on_sheet_, lead.sheet);
  // Prints of a plate are taken in their order; at two presses one may begin before the other ends.
  after(last_at_press_, std::pair(lead.press, lead.plate));
  if (const auto before = last_run_.find(lead.plate); before != last_run_.end()) {
    scheduling::at_least(d_.problem, before->second, a, 0);
  }
  last_run_[lead.plate] = a;
}

}  // namespace dampline::planner
