#include <algorithm>

#include <dampline/planner/builder.hpp>
#include <dampline/planner/damping.hpp>

namespace dampline::planner {

void Builder::wet_the_sheets() {
  if (t_.before_day) {
    for (auto& sheet : d_.sheets) {
      sheet.wet = sheet.lifted = {d_.problem.source, -*t_.before_day};
      sheet.covered = {d_.problem.source, t_.left_alone - *t_.before_day};
    }
    d_.batches.front().wet_from = {d_.problem.source, -*t_.before_day};
    d_.batches.front().covered_from = {d_.problem.source, t_.left_alone - *t_.before_day};
    return;
  }
  int previous = -1;
  for (std::size_t b = 0; b < d_.batches.size(); ++b) {
    previous = t_.in_tub ? soak_batch(b, previous) : damp_batch(b, previous);
  }
}

void Builder::reword(Part& part) const {
  if (t_.handling_word.empty()) return;
  part.what = t_.handling_word;
  part.cue = "As your method says.";
}

int Builder::damp_batch(std::size_t b, int previous) {
  auto& batch = d_.batches[b];
  const int by = wetting_hand();
  Block block{"damp-" + std::to_string(b + 1), {}};
  if (b > 0) wash_first(block, by);
  const HalfMinutes lead = block.parts.empty() ? HalfMinutes(0) : block.parts.front().length;
  Part damp = part("damp", by);
  const HalfMinutes each = t_.handling ? paced(*t_.handling, by) : damp.length;
  damp.length = each * static_cast<int>(batch.sheets.size());
  reword(damp);
  damp.sheets = batch.sheets;
  damp.uses.push_back({ix_.bench, 1});
  block.parts.push_back(damp);
  const int a = activity(block);
  in_turn(previous < 0 ? tear_ : previous, a);
  if (b == 0) before_ink(a, by);
  HalfMinutes at = lead;
  for (const int number : batch.sheets) {
    auto& sheet = d_.sheets[static_cast<std::size_t>(number - 1)];
    sheet.wet = {a, at};
    at += each;
    sheet.lifted = {a, at};
    sheet.covered = {a, at + t_.left_alone};
  }
  batch.wet_from = {a, lead};
  batch.covered_from = {a, at + t_.left_alone};
  d_.movable_later.push_back(a);
  return a;
}

void Builder::before_ink(int a, int by) {
  for (const auto& [plate, mixed] : mixed_) {
    if (teams_[static_cast<std::size_t>(plate)].inker == by) in_turn(a, mixed);
  }
}

int Builder::soak_batch(std::size_t b, int previous) {
  auto& batch = d_.batches[b];
  const int by = wetting_hand();
  const int count = static_cast<int>(batch.sheets.size());
  Block load{"load-" + std::to_string(b + 1), {}};
  if (b > 0) wash_first(load, by);
  const HalfMinutes lead = load.parts.empty() ? HalfMinutes(0) : load.parts.front().length;
  Part in = part("load", by, no_plate, count);
  in.sheets = batch.sheets;
  in.uses.push_back({ix_.tub, count});
  load.parts.push_back(in);
  const int loaded = activity(load);
  in_turn(previous < 0 ? tear_ : previous, loaded);
  if (b == 0) before_ink(loaded, by);
  batch.wet_from = {loaded, lead};
  for (const int number : batch.sheets) {
    d_.sheets[static_cast<std::size_t>(number - 1)].wet = {loaded, lead};
  }
  int last = loaded;
  if (t_.drawn_singly) {
    for (const int number : batch.sheets) last = blot_sheets({number}, loaded, by);
  } else {
    last = blot_sheets(batch.sheets, loaded, by);
  }
  batch.covered_from = end_of(last);
  batch.covered_from.offset += t_.left_alone;
  d_.movable_later.push_back(loaded);
  return last;
}

int Builder::blot_sheets(const std::vector<int>& sheets, int loaded, int by) {
  const std::string suffix = std::to_string(sheets.front());
  Block block{"blot-" + suffix, {}};
  wash_first(block, by);
  HalfMinutes at = block.parts.empty() ? HalfMinutes(0) : block.parts.front().length;
  Part blot = part("blot", by);
  const HalfMinutes each =
      t_.handling
          ? paced(*t_.handling, by)
          : half_minutes(blotting_time(units::seconds(blot.length.count() * 30.0), t_.blots));
  blot.length = each * static_cast<int>(sheets.size());
  reword(blot);
  blot.sheets = sheets;
  blot.uses.push_back({ix_.bench, 1});
  block.parts.push_back(blot);
  const int a = activity(block);
  const Moment first_lift{a, at};
  for (const int number : sheets) {
    auto& sheet = d_.sheets[static_cast<std::size_t>(number - 1)];
    sheet.lifted = {a, at};
    at += each;
    sheet.covered = {a, at + t_.left_alone};
  }
  least(end_of(loaded), first_lift, t_.soak);
  most(end_of(loaded), {a, at - each}, std::max(t_.soak_most, t_.soak + at));
  d_.soaks.emplace_back(loaded, a);
  d_.movable_later.push_back(a);
  return a;
}

}  // namespace dampline::planner
