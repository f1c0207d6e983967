#pragma once

#include <array>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/method/catcher.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/units/parse.hpp>
#include <dampline/units/quantity.hpp>

/// What the trade knows of the steps of a day: data/steps.toml and data/cautions.toml, typed.
namespace dampline::planner {

/// A data file of the program that cannot be used; the message names file, line and mend.
class DataError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

enum class Hands { inky, clean, any, none };

/// Least, typical and most time a step takes, minutes.
struct StepTimes {
  double least = 0;
  double typical = 0;
  double most = 0;
};

struct StepKind {
  std::string what;  ///< "ink"
  std::string cue;   ///< what to look for or mind
  Hands hands = Hands::none;
  /// For plates of 10 x 15, 20 x 30 and 40 x 60 cm; all equal when size does not matter.
  std::array<StepTimes, 3> by_size;
};

struct OpenTime {
  units::Duration comfortable{};
  units::Duration redo{};
};

/// What a plate may ask for beside its process.
struct Extra {
  std::vector<std::string> charging;  ///< steps after those that charge the plate
  std::vector<std::string> laying;    ///< steps before the sheet is laid on it
  std::vector<std::string> slower;    ///< steps that take `by` times as long
  double by = 1;
};

struct Craft {
  std::map<std::string, StepKind> steps;
  std::map<std::string, std::vector<std::string>> charging;  ///< process, or "default", to steps
  std::map<std::string, Extra> extras;
  std::map<std::string, OpenTime> open_time;  ///< by ink
  std::string basis;
  units::Duration evening{};  ///< after midnight: when a pack is laid the evening before
  method::PressHabits press;  ///< what wets the catcher felt, and when it is clammy
  double learner_pace = 1;    ///< of a first session, times typical
  Supplies supplies;
  int blotters_a_place = 1;  ///< blotters that one pair of hands blotting takes up
};

/// Reads the text of steps.toml. Throws DataError.
[[nodiscard]] Craft read_craft(std::string_view text, std::string_view file);

/// Typical time of a step for a plate (or sheet) of this size: between the three sizes by the
/// logarithm of the area, held constant outside them. Source: common practice, no published source.
/// Throws DataError when the step is not in the file.
[[nodiscard]] units::Duration step_time(const Craft& craft, const std::string& kind,
                                        const units::Size& plate);

/// The step of this name. Throws DataError when the file has none.
[[nodiscard]] const StepKind& step_kind(const Craft& craft, const std::string& kind);

/// The steps that charge a plate with ink for a process, and for what it asks for besides.
[[nodiscard]] std::vector<std::string> charging(const Craft& craft, const std::string& process,
                                                const std::vector<std::string>& extras);

/// The steps before the sheet is laid on a plate with these extras.
[[nodiscard]] std::vector<std::string> laying(const Craft& craft,
                                              const std::vector<std::string>& extras);

/// How many times as long a step takes with these extras.
[[nodiscard]] double slowed(const Craft& craft, const std::vector<std::string>& extras,
                            const std::string& kind);

/// How long a plate inked with this ink waits well; that of oil ink when the ink is not listed.
[[nodiscard]] const OpenTime& open_time_of(const Craft& craft, const std::string& ink);

/// A caution and the circumstances it belongs to.
struct CautionRule {
  std::string code;
  std::string text;
  std::vector<std::string> when;
  std::string basis;
};

/// Reads the text of cautions.toml. Throws DataError.
[[nodiscard]] std::vector<CautionRule> read_cautions(std::string_view text, std::string_view file);

}  // namespace dampline::planner
