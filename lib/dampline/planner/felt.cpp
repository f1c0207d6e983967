#include <algorithm>

#include <dampline/planner/felt.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {

std::string catcher_sentence(const method::PressHabits& habits, const PaperCase& paper,
                             const std::vector<CheckedPull>& pulls, int presses) {
  if (pulls.empty()) return {};
  const int count = static_cast<int>(pulls.size());
  const int to_a_press = (count + presses - 1) / presses;
  double damp = 0;
  for (const auto& p : pulls) damp += p.pull.moisture.mean.parts_of_one() / count;
  method::PressHabits day = habits;
  if (to_a_press > 1) {
    const auto run = pulls.back().pull.at - pulls.front().pull.at;
    const double seconds = run.count() * 30.0 / (to_a_press - 1);
    day.cycle = std::clamp(units::seconds(seconds), units::minutes(2), units::hours(2));
  }
  constexpr int far_enough = 100;
  const auto sheet = method::evenly(paper.sheet, units::Moisture(damp), paper.climate.temperature);
  const auto felt =
      method::catcher_forecast(paper.sheet, sheet, paper.climate, day, far_enough).swap_after;
  const auto about = felt ? "about " + std::to_string(*felt) + " pulls" : std::string();
  // The count is rough: a felt that only just lasts wants a dry one at hand.
  if (felt && *felt <= to_a_press + to_a_press / 4) {
    return "The catcher felt is likely clammy after " + about +
           ": have a dry one ready, or fresh newsprint for every pull.";
  }
  return "One catcher felt should do for the day" +
         (felt ? " (likely clammy after " + about + ")." : ".");
}

}  // namespace dampline::planner
