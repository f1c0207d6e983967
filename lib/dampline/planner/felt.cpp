#include <algorithm>

#include <dampline/planner/felt.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

constexpr int far_enough = 100;

int to_a_press(std::size_t pulls, int presses) {
  return (static_cast<int>(pulls) + presses - 1) / presses;
}

}  // namespace

std::optional<int> catcher_lasts(const method::PressHabits& habits, const PaperCase& paper,
                                 const std::vector<CheckedPull>& pulls, int presses) {
  if (pulls.empty()) return {};
  double damp = 0;
  for (const auto& p : pulls) {
    damp += p.pull.moisture.mean.parts_of_one() / static_cast<double>(pulls.size());
  }
  method::PressHabits day = habits;
  if (const int each = to_a_press(pulls.size(), presses); each > 1) {
    const auto run = pulls.back().pull.at - pulls.front().pull.at;
    const double seconds = run.count() * 30.0 / (each - 1);
    day.cycle = std::clamp(units::seconds(seconds), units::minutes(2), units::hours(2));
  }
  const auto sheet = method::evenly(paper.sheet, units::Moisture(damp), paper.climate.temperature);
  return method::catcher_forecast(paper.sheet, sheet, paper.climate, day, far_enough).swap_after;
}

std::string catcher_sentence(std::optional<int> lasts, std::optional<int> planned,
                             std::size_t pulls, int presses) {
  if (pulls == 0) return {};
  const auto about = [](int count) { return "about " + std::to_string(count) + " pulls"; };
  if (planned) {
    return "The catcher felt is likely clammy after " + about(*planned) +
           ": a dry one goes on then, or lay fresh newsprint for every pull.";
  }
  // The count is rough: a felt that only just lasts wants a dry one at hand.
  const int each = to_a_press(pulls, presses);
  if (lasts && *lasts <= each + each / 4) {
    return "The catcher felt is likely clammy after " + about(*lasts) +
           ": have a dry one ready, or fresh newsprint for every pull.";
  }
  return "One catcher felt should do for the day" +
         (lasts ? " (likely clammy after " + about(*lasts) + ")." : ".");
}

}  // namespace dampline::planner
