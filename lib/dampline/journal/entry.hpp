#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/units/quantity.hpp>

/// What is written down while printing: one entry a fact, never changed afterwards.
namespace dampline::journal {

/// A moment, and how far the clock it was read from stands east of UTC.
struct Stamp {
  std::chrono::sys_seconds at{};
  std::chrono::minutes offset{};
  friend bool operator==(const Stamp&, const Stamp&) = default;
};

/// A step begun or done. `step` is its kind or its id in a plan.
struct StepMark {
  std::string step;
  std::optional<std::string> plate;
  std::optional<int> print;
  std::optional<std::string> sheets;  ///< "3-5"
  std::optional<std::string> person;
};
struct Start : StepMark {};
struct Finish : StepMark {};

/// A sheet on the scale.
struct Weighing {
  enum class When { dry, soaked, blotted, bench, pulled, dried };
  When state = When::dry;
  units::Mass mass{};
  std::optional<units::Duration> after;  ///< so long in the water, on the bench ...
  std::optional<int> sheet;
};

/// Between two pencil marks.
struct Length {
  enum class Direction { along, across };  ///< the grain
  enum class When { dry, damp, pulled, waited, dried };
  Direction direction = Direction::across;
  When state = When::dry;
  units::Length length{};
  std::optional<units::Duration> after;
  std::optional<int> sheet;
};

/// What the fingers say.
struct Touch {
  enum class Verdict { wet, right, dry };
  Verdict verdict = Verdict::right;
  std::optional<int> sheet;
};

/// A hygrometer, or two thermometers; one reading at least.
struct Air {
  std::optional<units::Temperature> temperature;
  std::optional<units::RelativeHumidity> humidity;
  std::optional<units::Temperature> wet_bulb;
  std::optional<std::string> place;
};

/// What the press shows at the ends of its roller, on its own scale. Kept to compare one day with
/// another; nothing is ever made of how high it is.
struct Press {
  double left = 0;
  double right = 0;
  std::optional<std::string> scale;  ///< "turns"
  std::optional<std::string> press;
};

/// Something done to the blankets.
struct Felt {
  enum class Which { catcher, cushion, pusher, all };
  enum class Done { changed, turned, squared, aired, washed };
  Which felt = Which::catcher;
  Done done = Done::changed;
};

struct Ink {
  std::string what;  ///< "bone black, 3 drops of oil"
  std::optional<std::string> plate;
};

/// One print off the press.
struct Print {
  enum class Verdict { good, spoiled };
  int print = 0;
  Verdict verdict = Verdict::good;
  std::optional<std::string> why;
  std::optional<std::string> plate;
  std::optional<int> sheet;
};

struct Note {
  std::string text;
};

/// Of a kind that this version does not know.
struct Unknown {
  std::string kind;
};

using Record = std::variant<Start, Finish, Weighing, Length, Touch, Air, Press, Felt, Ink, Print,
                            Note, Unknown>;

/// A key that this version does not know, with its value as text.
struct OtherKey {
  std::string key;
  std::string value;
};

struct Entry {
  Stamp time;
  std::string session;                ///< title; may be empty
  std::chrono::year_month_day day{};  ///< of the session
  std::string stock;                  ///< empty: not stated
  Record record = Note{};
  std::optional<std::string> remark;  ///< any entry may carry one
  std::vector<OtherKey> others;       ///< from a newer version
  int line = 0;                       ///< in its file; 0: in none yet
};

}  // namespace dampline::journal
