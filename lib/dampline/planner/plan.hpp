#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include <dampline/units/quantity.hpp>

/// A planned day, as plain values: what every output shows and anybody can check.
namespace dampline::planner {

/// Half minutes since the studio opened: the clock of the schedule.
using HalfMinutes = std::chrono::duration<int, std::ratio<30>>;

enum class ResourceKind { person, press, tub, blotting_place, plate, hot_plate, drying };

struct Resource {
  std::string name;
  ResourceKind kind = ResourceKind::person;
  int capacity = 1;
};

struct Use {
  int resource = 0;  ///< index into Plan::resources
  int amount = 1;
};

enum class StepState { planned, running, done };

struct Step {
  std::string id;  ///< "ink-3-key": stable for the same session
  std::string
      kind;  ///< a key of data/steps.toml: "soak", "blot", "ink", "wipe", "pull", "break" ...
  std::string what;         ///< "ink key, print 3"
  std::string cue;          ///< what to look for or mind; may be empty
  std::vector<int> sheets;  ///< sheet numbers, from 1
  std::string plate;        ///< empty when it concerns none
  int print = 0;            ///< number in printing order, from 1; 0: none
  std::vector<Use> uses;
  HalfMinutes start{};
  HalfMinutes end{};
  std::vector<std::string> because;  ///< ids of the steps (or "window: ...") that hold it here
  StepState state = StepState::planned;
};

struct MoistureAt {
  units::Moisture mean{};
  units::Moisture surface{};
  units::Moisture driest{};
  units::Moisture low{};   ///< 10 % of the likely sheets are drier than this (mean)
  units::Moisture high{};  ///< 10 % are wetter
};

struct Misfit {
  units::Length along{};  ///< the image of this plate against the first, along the grain
  units::Length across{};
  units::Length worst{};   ///< at the worst corner, placing error apart
  units::Chance within{};  ///< that the worst corner stays inside the tolerance
};

struct Pull {
  int print = 0;  ///< in printing order, from 1
  bool proof = false;
  std::string plate;
  std::string printer;  ///< who runs it
  int sheet = 0;
  HalfMinutes at{};
  HalfMinutes ready_from{};
  HalfMinutes ready_until{};
  MoistureAt moisture;
  units::Chance ready{};  ///< chance that the sheet is found ready
  units::Strain along{};  ///< growth since the dry sheet (50 % RH), along the grain
  units::Strain across{};
  std::optional<Misfit> misfit;  ///< for every pull after a sheet's first
};

/// What remains to be done or kept in mind when the day is over.
struct AfterStep {
  std::chrono::minutes since_finish{};
  std::string what;
  std::string basis;
  std::string kind{};              ///< "blotters", "look", "flatten", "flat", "ink", "stack"
  std::chrono::minutes put_off{};  ///< until one is up to do it
};

/// What a session uses up.
struct Supplies {
  int blotters_a_sheet = 0, newsprint_a_pull = 0, tissue_a_print = 0, pads_a_plate = 0;
};

struct Warning {
  std::string code;  ///< "fewer-prints", "pull-outside-window" ...
  std::string text;
  std::string help;
};

struct Caution {
  std::string code;
  std::string text;
};

/// The state of paper from one soak (or pack), for showing its window.
struct Batch {
  std::string what;  ///< "sheets 1-6"
  std::vector<int> sheets;
  HalfMinutes wet_from{};      ///< first contact with water; negative: before the day
  HalfMinutes covered_from{};  ///< blotted and under cover
  HalfMinutes ready_from{};
  HalfMinutes ready_until{};
  struct Point {
    HalfMinutes at{};
    units::Moisture mean{}, surface{}, low{}, high{};
  };
  std::vector<Point> curve;
  units::Moisture band_low{};
  units::Moisture band_high{};
};

/// The air of a day that goes by a log.
struct LoggedClimate {
  struct Hours {
    HalfMinutes from{};
    HalfMinutes until{};
    std::string basis;  ///< "logged", "typical day", "nearest reading"
  };
  struct Gap {
    HalfMinutes from{};
    HalfMinutes until{};
    int line_before = 0;
    int line_after = 0;
  };
  struct LeftOut {
    std::string why;
    std::vector<int> lines;  ///< the first few
    int count = 0;
  };
  std::string file;
  int readings = 0;      ///< usable rows of the file
  int in_the_hours = 0;  ///< of them within the hours planned
  std::vector<Hours> hours;
  std::vector<Gap> bridged;
  std::vector<LeftOut> left_out;
  units::Temperature mean_temperature{}, coldest{}, warmest{};  ///< of the working hours
  units::RelativeHumidity mean_humidity{}, driest{}, dampest{};
  units::RelativeHumidity scatter{};  ///< of the sampled rooms, either way, 8 of 10
  std::vector<std::string> notes;     ///< all of it in sentences
};

struct Shortage {
  std::string resource;  ///< "hands of A", "drying places"
  std::string text;      ///< "12 prints need 9 h 40 min of A's hands; the day has 6 h 10 min"
};

/// What to write for the next day of an edition whose sheets are dried between plates.
struct Resume {
  std::vector<std::string> printed;  ///< plates on the sheets by then
  units::Strain along{};             ///< growth at the first pull, along the grain
  units::Strain across{};
  int prints = 0;
  int proofs = 0;
  std::string lines;  ///< of the session file, under [edition]
};

/// What can still be done for wet paper when the day runs late.
struct Rescue {
  std::string kind;  ///< "cover", "mist", "blot", "ink-again", "refrigerate", "damp-again"
  std::vector<int> sheets;
  std::string text;                  ///< with its numbers
  std::string step;                  ///< id of the step it is in the plan; empty: advice
  std::optional<units::Mass> water;  /// laid on each sheet
  std::optional<units::Duration> rest;
  std::optional<units::Moisture> before, after;  ///< means, now and once rested
};

/// A plan made again in the course of the day.
struct LateDay {
  HalfMinutes at{};  ///< nothing planned begins before
  HalfMinutes finish_before{};
  int prints_before = 0;  ///< planned in the morning, proofs apart
  int proofs_before = 0;
  int done = 0;           ///< steps
  int running = 0;        ///< likewise
  std::vector<int> lost;  ///< prints the plan of the morning had, by number
  std::vector<Rescue> rescues;
  std::vector<std::string> notes;  ///< what was assumed and what has changed, a sentence each
};

/// How much of its time somebody or something is taken, from opening to finish, pauses apart.
struct Utilisation {
  int resource = 0;  ///< index into Plan::resources
  HalfMinutes busy{};
  HalfMinutes available{};  ///< of all it has, where there are several
};

/// Things asked for that cannot hold together.
struct Clash {
  std::vector<std::string> demands;  ///< in the session's words
  bool is_minimal = false;           ///< proved: without any one of them there is a plan
};

/// A day that takes what was asked, one thing changed as little as will do.
struct NearestDay {
  std::string change;      ///< "out by 19:45 instead of 17:30"
  bool is_proved = false;  ///< no smaller change of this one thing does, to the step it is tried in
};

/// One thing changed, and what the day then comes to.
struct AdvisedChange {
  std::string change;  ///< "one more person for the paper"
  int prints = 0;      ///< that fit, proofs apart
  int proofs = 0;
  int gain = 0;             ///< prints and proofs more
  HalfMinutes finish{};     ///< on the clock of the plan
  HalfMinutes gain_time{};  ///< finished earlier on the clock, with as many prints; else 0
  bool is_proved = false;   ///< no more fit the changed day, and as many not earlier
};

struct Advice {
  std::vector<AdvisedChange> changes;  ///< that gain anything, most first
  std::vector<std::string> idle;       ///< that gain nothing
  long long conflicts = 0;             ///< search budget for each question of a changed day
};

struct Plan {
  std::string title;
  std::string zone;
  std::chrono::sys_seconds opens{};  ///< the studio opens: HalfMinutes 0
  std::vector<std::string> summary;  ///< how the paper is treated and why, a sentence each
  std::vector<Resource> resources;
  std::vector<Step> steps;  ///< by start, then by id
  std::vector<Pull> pulls;  ///< by time
  std::vector<Batch> batches;
  std::optional<units::Duration> open_life;  ///< a ready sheet stays so this long in the open
  HalfMinutes until{};                       ///< out by
  HalfMinutes finish{};                      ///< cleaned up
  HalfMinutes bound_finish{};                ///< no plan of as many prints can finish earlier
  bool proved = false;                       ///< finish is proved the earliest
  HalfMinutes margin{};        ///< every pull keeps so far from either end of its sheet's window
  bool margin_proved = false;  ///< no plan that ends by then keeps further
  HalfMinutes idle_wet{};      ///< waits of wet sheets and inked plates in all, soak and rest apart
  int prints_planned = 0;      ///< prints, proofs apart
  int prints_asked = 0;
  int proofs_planned = 0;
  int proofs_asked = 0;
  std::string bottleneck;                ///< a sentence; empty without a plan
  std::vector<Utilisation> utilisation;  ///< most taken first
  std::optional<Advice> advice;          ///< where it was asked for
  std::vector<Clash> clashes;            ///< why what was asked for does not fit
  std::vector<NearestDay> nearest;       ///< what would make it fit
  std::vector<Shortage> short_of;        ///< why not all, most pressing first; empty when all fit
  std::vector<std::string> assumptions;  ///< model assumptions that matter for this plan
  std::vector<std::string> defaults_used;
  std::optional<LoggedClimate> climate;  ///< none: one reading for the day
  std::optional<Resume> resume;          ///< none: the edition ends today
  std::optional<LateDay> late;           ///< none: planned before the day
  std::vector<AfterStep> after;
  Supplies supplies;
  std::vector<Warning> warnings;
  std::vector<Caution> cautions;
};

/// (finish - bound) / finish; 0 when proved.
[[nodiscard]] double gap_percent(const Plan& plan);

}  // namespace dampline::planner
