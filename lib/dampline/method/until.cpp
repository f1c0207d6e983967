#include <algorithm>

#include <dampline/material/transport.hpp>
#include <dampline/method/until.hpp>
#include <dampline/units/text.hpp>

namespace dampline::method {

units::Parsed<Until> parse_until(std::string_view text) {
  if (text == "even") return Until{Goal::even, units::Moisture(even_spread)};
  if (text == "no shine") return Until{Goal::no_shine, {}};
  if (text == "full") return Until{Goal::full, {}};
  if (text == "dry") return Until{Goal::dry, {}};
  const auto bounded = [&](std::string_view words, Goal goal) -> units::Parsed<Until> {
    const auto read = units::parse_moisture(text.substr(words.size()));
    if (const auto* u = std::get_if<units::Moisture>(&read)) return Until{goal, *u};
    auto refusal = std::get<units::Refusal>(read);
    refusal.column += words.size();
    return refusal;
  };
  for (const auto& [words, goal] : {std::pair{std::string_view("mean below "), Goal::below},
                                    {std::string_view("mean above "), Goal::above},
                                    {std::string_view("even within "), Goal::even}}) {
    if (text.starts_with(words)) return bounded(words, goal);
  }
  return units::Refusal{0, "unknown end \"" + std::string(text) + "\"",
                        "one of: even, even within 0.10 g/g, no shine, full, dry, mean below "
                        "0.60 g/g, mean above 0.20 g/g"};
}

std::string text(const Until& until) {
  switch (until.goal) {
    case Goal::even:
      return until.bound == units::Moisture(even_spread)
                 ? "even"
                 : "even within " + units::text(until.bound);
    case Goal::no_shine:
      return "no shine";
    case Goal::full:
      return "full";
    case Goal::dry:
      return "dry";
    case Goal::below:
      return "mean below " + units::text(until.bound);
    case Goal::above:
      break;
  }
  return "mean above " + units::text(until.bound);
}

double dried_moisture_si(const material::Porous& sheet, const air::Climate& room) {
  return equilibrium_si(*sheet.drying, room.humidity.parts_of_one(),
                        units::in_si(room.temperature));
}

double left_to_do(const Until& until, const material::Porous& sheet, const State& state,
                  double room_moisture) {
  double mean = 0;
  for (std::size_t i = 0; i < state.moisture.size(); ++i)
    mean += state.moisture[i] * state.share[i];
  switch (until.goal) {
    case Goal::even: {
      const auto [low, high] = std::minmax_element(state.moisture.begin(), state.moisture.end());
      // Water still on a face has yet to go in.
      const double film = (state.film_upper + state.film_lower) / sheet.dry;
      return *high - *low + film - until.bound.parts_of_one();
    }
    case Goal::no_shine: {
      const double film = state.film_upper + state.film_lower - shining_film;
      const double face = std::max(state.moisture.front(), state.moisture.back());
      return std::max(film / sheet.dry, face - shining_face * sheet.saturation);
    }
    case Goal::full:
      return nearly_full * sheet.saturation - mean;
    case Goal::dry:
      return mean + (state.film_upper + state.film_lower) / sheet.dry - room_moisture - one_point;
    case Goal::below:
      return mean - until.bound.parts_of_one();
    case Goal::above:
      break;
  }
  return until.bound.parts_of_one() - mean;
}

}  // namespace dampline::method
