#include <algorithm>
#include <utility>

#include <dampline/planner/builder.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/timeline.hpp>

namespace dampline::planner {
namespace {

units::Duration span(HalfMinutes t) { return units::seconds(std::max(0, t.count()) * 30.0); }

method::Stage lasting(method::Stage stage, HalfMinutes t) {
  stage.duration = span(t);
  return stage;
}

// A sheet on its way, waiting from one thing to the next.
class Course {
 public:
  Course(const DraftSheet& sheet, const Damping& damping, const std::vector<int>& starts)
      : starts_(starts), tending_(sheet.tended.begin()), tended_(sheet.tended.end()) {
    t_.begins = when(sheet.wet, starts);
    t_.stages = damping.wetting;
    if (damping.treatment.in_tub) {
      t_.stages.front().duration = span(when(sheet.lifted, starts) - t_.begins);
    }
    clock_ = when(sheet.covered, starts);
    hold_ = damping.hold;
  }

  void wait_until(HalfMinutes until) {
    for (; tending_ != tended_ && when(tending_->at, starts_) < until; ++tending_) {
      const HalfMinutes at = std::max(clock_, when(tending_->at, starts_));
      t_.stages.push_back(lasting(hold_, at - clock_));
      t_.stages.insert(t_.stages.end(), tending_->stages.begin(), tending_->stages.end());
      clock_ = at + half_minutes(method::length_of(tending_->stages));
      hold_ = tending_->hold;
    }
    t_.stages.push_back(lasting(hold_, until - clock_));
  }

  void pull(const DraftPull& pull) {
    const HalfMinutes laid = when(pull.laid, starts_);
    const HalfMinutes pulled = when(pull.pulled, starts_);
    wait_until(laid);
    t_.stages.push_back(
        lasting(method::left(method::Arrangement::bench, units::seconds(0)), pulled - laid));
    t_.pull_after.push_back(t_.stages.size() - 1);
    t_.stages.push_back(method::nip_pass());
    clock_ = pulled;
    hold_ = method::left(method::Arrangement::covered, units::seconds(0));
  }

  Timeline take() { return std::move(t_); }

 private:
  const std::vector<int>& starts_;
  std::vector<Tending>::const_iterator tending_, tended_;
  Timeline t_;
  HalfMinutes clock_{};
  method::Stage hold_;
};

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
  Course course(sheet, damping, starts);
  for (const auto& pull : pulls) course.pull(pull);
  return course.take();
}

Timeline timeline_until(HalfMinutes at, const DraftSheet& sheet,
                        const std::vector<DraftPull>& pulls, const Damping& damping,
                        const std::vector<int>& starts) {
  Course course(sheet, damping, starts);
  for (const auto& pull : pulls) {
    if (when(pull.pulled, starts) <= at) course.pull(pull);
  }
  course.wait_until(at);
  return course.take();
}

}  // namespace dampline::planner
