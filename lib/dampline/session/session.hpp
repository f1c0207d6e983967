#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/session/input_error.hpp>
#include <dampline/session/readings.hpp>
#include <dampline/units/parse.hpp>
#include <dampline/units/quantity.hpp>

/// The session document: what the printer wrote, typed and checked against itself, with the places
/// in the file that later errors can point at. Defaults are filled in, and every default used is
/// listed.
namespace dampline::session {

using ClockTime = std::chrono::minutes;  ///< since midnight of the session's day, local time

struct Break {
  ClockTime at{};
  units::Duration length{};
};

/// Rests of each pair of hands beside the breaks: one at least after every so much work.
struct Rests {
  units::Duration every{};
  units::Duration length{};
};

struct Day {
  std::chrono::year_month_day date{};
  ClockTime from{};   ///< the studio is yours from
  ClockTime until{};  ///< cleaned up and out by
  std::string zone;   ///< IANA name, checked
  std::vector<Break> breaks;
  std::optional<Rests> rests;
};

using air::AirMovement;

struct Studio {
  units::Temperature temperature{};
  units::RelativeHumidity humidity{};  ///< worked out when a wet bulb or dew point is given instead
  AirMovement air = AirMovement::ordinary;
  units::Length altitude{};
  std::optional<units::Temperature> wet_bulb;   ///< as given instead of humidity
  std::optional<units::Temperature> dew_point;  ///< as given instead of humidity
  std::optional<std::string> readings;  ///< a log, named from where the session stands; then
                                        ///< temperature and humidity say nothing
  std::string readings_zone;            ///< of its times without an offset
  std::optional<Readings> log;  ///< what is in it: set by whoever opens files (read.hpp does not)
  Place where_readings;
};

struct Person {
  std::string name;
  bool inks = true;
  bool handles_paper = true;
  double pace = 1;                ///< time taken over typical: learner above 1, practised below
  bool learner = false;           ///< a first session: the learner's pace of the trade
  std::optional<ClockTime> from;  ///< there from; absent: all day
  std::optional<ClockTime> until;
};

struct Press {
  std::string name;
  std::optional<units::Size> bed;
  Place where;
  std::optional<units::Size> blankets;
  std::optional<int> square_after;  ///< pulls
  std::optional<ClockTime> from;    ///< hired from; absent: all day
  std::optional<ClockTime> until;
};

struct Tub {
  int sheets = 0;
  units::Temperature water{};
  std::optional<units::Size> size{};
};

enum class DryingMethod { boards, rack, tape, line };

struct Equipment {
  std::vector<Press> presses;
  std::optional<Tub> tub;  ///< absent: no tub in this studio
  int blotters = 0;
  std::optional<units::Size> blotter;
  bool hot_plate = false;
  DryingMethod drying = DryingMethod::boards;
  std::optional<int> drying_places;  ///< absent: not stated, no limit planned
  std::optional<units::Size> drying_size;
};

enum class Grain { along_long_side, along_short_side, none, unknown };

/// A paper by name from the catalogue, or described by its properties, or both (a name with some
/// properties overridden).
struct Paper {
  std::string stock;
  std::optional<units::Grammage> grammage;
  std::optional<units::Length> thickness;
  std::optional<units::Grammage> cobb;
  std::optional<std::string> furnish;
  std::optional<std::string> making;
  std::optional<std::string> sizing;
  units::Size sheet{};
  Grain grain = Grain::unknown;
  int sheets = 0;     ///< at hand; 0: not stated
  Place where;        ///< of the [paper] table
  Place where_stock;  ///< of the stock's name
};

enum class Hold { covered, tub, bench };

struct Damping {
  std::string
      method;  ///< soak, sponge, mist, pack, or one of the user's own; empty: chosen for the paper
  Hold hold = Hold::covered;
  std::optional<units::Duration> soak;  ///< overrides the chosen soak
  std::optional<units::Duration> rest;  ///< overrides the chosen rest
  bool evening_before = false;          ///< the pack is laid the evening before
  Place where;
  Place where_method;
};

struct Plate {
  std::string name;
  units::Size size{};
  std::string process;
  std::string ink;
  int copies = 1;  ///< identical plates that can be inked in turn
  std::map<std::string, units::Duration>
      times;                           ///< step name to duration, overriding data/steps.toml
  std::vector<std::string> extras;     ///< beside the process, as in data/steps.toml
  std::optional<std::string> press;    ///< only on this press
  std::optional<std::string> printer;  ///< only this person prints it
  Place where;                         ///< of its name
  Place where_process;
  Place where_ink;
  std::vector<Place> where_extras;
  std::map<std::string, Place> where_times;
};

enum class Between { held, released, dried };

/// How much larger than new a sheet was at its first pull.
struct FirstPull {
  units::Strain along{};  ///< the grain
  units::Strain across{};
};

struct Edition {
  int prints = 0;
  int proofs = 0;
  std::vector<std::string> order;  ///< plate names in printing order; each plate once
  bool order_given = false;        ///< else as they stand in the file
  Between between = Between::held;
  bool sheet_each = false;           ///< every plate is an edition of its own, on sheets of its own
  std::vector<std::string> printed;  ///< plates on the sheets already, the first of `order`
  std::optional<FirstPull> first_pull;  ///< absent: as a fresh sheet would be today
  Place where;
};

enum class Locate { corner, edge, centre, pins };

struct Register {
  units::Length tolerance{};
  Locate locate = Locate::corner;
  units::Length placing{};
};

struct Session {
  std::string title;
  Day day;
  Studio studio;
  std::vector<Person> people;
  Equipment equipment;
  Paper paper;
  Damping damping;
  std::vector<Plate> plates;
  Edition edition;
  Register registering;
  std::vector<std::string> defaults_used;  ///< "studio.humidity = 50 %", in file order of the keys
  InputErrors warnings;                    ///< doubtful, but no reason not to plan
  std::string file;                        ///< as named by the caller, for later errors
  std::string text;                        ///< the source, for later carets
};

}  // namespace dampline::session
