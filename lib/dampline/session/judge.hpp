#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <dampline/session/section.hpp>
#include <dampline/session/session.hpp>

namespace dampline::session {

/// Where the hours of a person or a press stand.
struct HoursPlaces {
  Place from{};
  Place until{};
};

/// Where things stand that the session itself has no place for.
struct Places {
  bool hours_known = false;  ///< day.from and day.until were read
  Place from{};
  Place until{};
  Place zone{};
  Place sheet{};
  Place sheets{};
  Place method{};
  Place hold{};
  Place drying_places{};
  Place drying_size{};
  Place tub_size{};
  Place blotter{};
  std::vector<Place> breaks;
  std::vector<Place> people;
  std::vector<HoursPlaces> person_hours;
  std::vector<HoursPlaces> press_hours;
  bool order_known = false;
  Place order_whole{};
  std::vector<Place> order;
  bool printed_known = false;
  std::vector<Place> printed;
  std::optional<Place> first_pull;
  std::vector<Place> plate_sizes;
  std::vector<Place> plate_presses;
  std::vector<Place> plate_printers;
};

/// What is wrong between keys that are each right by themselves: times of the day, names that
/// should be known or different, sizes that should fit. What could not be read is left out.
void judge(const Session& s, const Places& places, Findings& findings);

/// Of that, whether plates lie on the sheet, and the sheet on press, tub, blotter and board.
void judge_sizes(const Session& s, const Places& places, Findings& findings);

}  // namespace dampline::session
