#pragma once

#include <array>
#include <memory>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/stack/face.hpp>

/// A set of blotters that keep what they took.
namespace dampline::method {

struct Blotters {
  std::shared_ptr<const material::Porous> material;
  std::vector<units::Moisture> each;  ///< evened out between uses, `assumed`
};
/// As they are in a room: the usual 350 g/m2 when no material is given.
[[nodiscard]] Blotters dry_blotters(
    int count, const air::Climate& room,
    const std::shared_ptr<const material::Porous>& material = nullptr);

enum class Turns {
  driest,   ///< the driest pair for every sheet
  by_turns  ///< pair after pair, round and round
};

struct Blotting {
  units::Duration time = units::seconds(20);
  stack::Contact contact = stack::Contact::roller;
  Turns turns = Turns::driest;
  double area_share = 1;  ///< sheet over blotter: what a small sheet leaves spreads over the whole
  units::Duration between{};  ///< the set hangs in the room so long after each sheet
};

struct BlotOnce {
  State sheet;
  Blotters blotters;
  std::array<std::size_t, 2> pair;  ///< above and below
  units::Grammage taken{};          ///< from the sheet and its faces, per area of the sheet
};
/// A sheet between a pair of the set; `turn` counts the sheets before it.
[[nodiscard]] BlotOnce blot_once(const Sheet& sheet, const State& state, const Blotters& blotters,
                                 const air::Climate& room, const Blotting& how = {}, int turn = 0);

/// The set hung in the room for a time.
[[nodiscard]] Blotters aired(const Blotters& blotters, units::Duration time,
                             const air::Climate& room);

/// The moisture at which a blotter is spent: a pair so damp takes half of what a dry pair takes
/// from the sheet. Common practice has a 56 x 76 cm blotter clammy after 100 to 150 g.
[[nodiscard]] units::Moisture spent_at(const Sheet& sheet, const State& state,
                                       const Blotters& blotters, const air::Climate& room,
                                       const Blotting& how = {});

struct Served {
  std::vector<units::Grammage> taken;  ///< from each sheet served
  std::vector<State> sheets;           ///< as they came out
  Blotters left;
  units::Moisture spent{};  ///< see spent_at
};
/// Sheets all in the same state, one after the other, until both blotters whose turn it is are
/// spent, or `most` sheets.
[[nodiscard]] Served serve(const Sheet& sheet, const State& state, const Blotters& blotters,
                           const air::Climate& room, const Blotting& how = {}, int most = 1000);

}  // namespace dampline::method
