#include <algorithm>
#include <array>

#include <dampline/planner/studios.hpp>
#include <dampline/session/words.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using std::chrono::duration_cast;
using std::chrono::seconds;

std::string_view trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t");
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

units::Duration between(std::chrono::sys_seconds from, std::chrono::sys_seconds to) {
  return units::seconds(static_cast<double>((to - from).count()));
}

constexpr const char* how = "write it as \"12 degC, 80 %\" or \"25 degC, 30 %, fan\"";

}  // namespace

units::Parsed<OtherStudio> parse_studio(std::string_view text) {
  std::optional<units::Temperature> temperature;
  std::optional<units::RelativeHumidity> humidity;
  OtherStudio out;
  for (std::size_t at = 0; at <= text.size();) {
    const auto end = std::min(text.find(',', at), text.size());
    const auto part = trimmed(text.substr(at, end - at));
    using enum session::AirMovement;
    const std::array all{still, ordinary, fan};
    const auto air =
        std::find_if(all.begin(), all.end(), [&](auto a) { return session::word(a) == part; });
    if (air != all.end()) {
      out.air = *air;
    } else if (part.find('%') != std::string_view::npos) {
      const auto read = units::parse_humidity(part);
      if (!units::ok(read)) return std::get<units::Refusal>(read);
      humidity = std::get<units::RelativeHumidity>(read);
    } else {
      const auto read = units::parse_temperature(part);
      if (!units::ok(read))
        return units::Refusal{
            at, "no temperature, humidity or movement of air: \"" + std::string(part) + "\"", how};
      temperature = std::get<units::Temperature>(read);
    }
    at = end + 1;
  }
  if (!temperature || !humidity)
    return units::Refusal{0, "a temperature and a humidity are needed", how};
  const double celsius = units::in_celsius(*temperature);
  if (!(celsius >= 0 && celsius <= 45)) return units::Refusal{0, "outside 0 to 45 degC", how};
  if (humidity->percent() < 1) return units::Refusal{0, "outside 1 to 100 %", how};
  out.temperature = *temperature;
  out.humidity = *humidity;
  return out;
}

session::Session in_studio(const session::Session& session, const OtherStudio& other) {
  session::Session out = session;
  out.studio.temperature = other.temperature;
  out.studio.humidity = other.humidity;
  out.studio.air = other.air.value_or(session.studio.air);
  out.studio.wet_bulb.reset();
  out.studio.dew_point.reset();
  out.studio.readings.reset();
  out.studio.log.reset();
  return out;
}

StudioDay studio_day(const WorkedDay& day, const DryingRules& rules) {
  const Plan& plan = day.plan;
  const auto instant = [&](HalfMinutes at) { return plan.opens + duration_cast<seconds>(at); };
  StudioDay out;
  const auto& climate = day.paper.climate;
  out.label = units::text(climate.temperature) + ", " + units::text(climate.humidity) + ", " +
              session::word(day.session.studio.air);
  out.prints = plan.prints_planned;
  out.prints_asked = plan.prints_asked;
  out.proofs = plan.proofs_planned;
  out.proofs_asked = plan.proofs_asked;
  for (const auto& w : plan.warnings) out.warnings.push_back(w.code);
  out.open_life = plan.open_life;
  if (plan.pulls.empty()) return out;
  out.first_pull = instant(plan.pulls.front().at);
  out.last_pull = instant(plan.pulls.back().at);
  out.finish = instant(plan.finish);
  if (!plan.batches.empty()) {
    const auto& first =
        *std::min_element(plan.batches.begin(), plan.batches.end(),
                          [](const auto& a, const auto& b) { return a.wet_from < b.wet_from; });
    out.wet_from = instant(first.wet_from);
    out.rest = between(instant(first.covered_from), instant(first.ready_from));
    for (const auto& step : plan.steps) {
      if (step.kind != "soak" || step.sheets != first.sheets) continue;
      out.soak = between(instant(step.start), instant(step.end));
    }
  }
  double mean = 0, least = 1, misfit = -1;
  for (const auto& p : plan.pulls) {
    mean += p.moisture.mean.parts_of_one() / static_cast<double>(plan.pulls.size());
    least = std::min(least, p.ready.parts_of_one());
    if (p.misfit) misfit = std::max(misfit, units::in_millimetres(p.misfit->worst));
  }
  out.moisture = units::Moisture(mean);
  out.least_ready = units::Chance(least);
  if (misfit >= 0) out.worst_misfit = units::millimetres(misfit);
  const auto after = after_press(day, rules);
  if (!after) return out;
  for (const auto& d : after->dates) {
    if (d.kind != "dry") continue;
    out.dry_in_time = !d.is_open;
    out.dry = between(after->finished, d.at);
    if (d.early) out.dry_early = between(after->finished, *d.early);
    if (d.late) out.dry_late = between(after->finished, *d.late);
  }
  return out;
}

}  // namespace dampline::planner
