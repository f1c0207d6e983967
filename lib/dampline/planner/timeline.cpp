#include <algorithm>

#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/timeline.hpp>

namespace dampline::planner {
namespace {

units::Duration span(HalfMinutes t) { return units::seconds(std::max(0, t.count()) * 30.0); }

method::Stage lasting(method::Stage stage, HalfMinutes t) {
  stage.duration = span(t);
  return stage;
}

}  // namespace

std::vector<DraftPull> pulls_of(const Draft& draft, int sheet, const std::vector<int>& starts) {
  std::vector<DraftPull> pulls;
  for (const auto& pull : draft.pulls) {
    if (pull.sheet == sheet) pulls.push_back(pull);
  }
  std::sort(pulls.begin(), pulls.end(), [&](const DraftPull& a, const DraftPull& b) {
    return when(a.pulled, starts) < when(b.pulled, starts);
  });
  return pulls;
}

Timeline timeline_of(const DraftSheet& sheet, const std::vector<DraftPull>& pulls,
                     const Damping& damping, const std::vector<int>& starts) {
  Timeline t;
  t.begins = when(sheet.wet, starts);
  t.stages = damping.wetting;
  if (damping.treatment.in_tub) {
    t.stages.front().duration = span(when(sheet.lifted, starts) - t.begins);
  }
  HalfMinutes clock = when(sheet.covered, starts);
  auto hold = damping.hold;
  for (const auto& pull : pulls) {
    const HalfMinutes laid = when(pull.laid, starts);
    const HalfMinutes pulled = when(pull.pulled, starts);
    t.stages.push_back(lasting(hold, laid - clock));
    t.stages.push_back(
        lasting(method::left(method::Arrangement::bench, units::seconds(0)), pulled - laid));
    t.pull_after.push_back(t.stages.size() - 1);
    t.stages.push_back(method::nip_pass());
    clock = pulled;
    hold = method::left(method::Arrangement::covered, units::seconds(0));
  }
  return t;
}

}  // namespace dampline::planner
