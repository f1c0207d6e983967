#pragma once

#include <string>
#include <string_view>

#include <dampline/air/climate.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/units/parse.hpp>

/// What ends a stage before its time.
namespace dampline::method {

enum class Goal {
  even,      ///< wettest place less driest at most `bound`
  no_shine,  ///< no film, both faces below nine tenths of what they hold
  full,      ///< mean at 95 % of what the sheet takes up
  dry,       ///< mean within one point (0.01 g/g) of what it keeps in the room
  below,     ///< mean below `bound`
  above,     ///< mean above `bound`
};

struct Until {
  Goal goal = Goal::even;
  units::Moisture bound{};
};

/// Spread of an evened-out sheet, g/g: `assumed`, a quarter of what etching allows.
inline constexpr double even_spread = 0.05;
/// Film that shows, kg/m2, and the share of saturation above which a face shines.
inline constexpr double shining_film = 0.001;
inline constexpr double shining_face = 0.90;
inline constexpr double nearly_full = 0.95;
inline constexpr double one_point = 0.01;

/// "even", "even within 0.10 g/g", "no shine", "full", "dry", "mean below 60 %", "mean above 0.2
/// g/g".
[[nodiscard]] units::Parsed<Until> parse_until(std::string_view text);
[[nodiscard]] std::string text(const Until& until);

/// What a sheet keeps in a room that it dries in.
[[nodiscard]] double dried_moisture_si(const material::Porous& sheet, const air::Climate& room);

/// Above zero until the goal is reached, g/g. `room_moisture` as dried_moisture_si has it.
[[nodiscard]] double left_to_do(const Until& until, const material::Porous& sheet,
                                const State& state, double room_moisture);

}  // namespace dampline::method
