#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/plan.hpp>
#include <dampline/report/clock.hpp>
#include <dampline/report/family.hpp>
#include <dampline/session/session.hpp>

namespace dampline::report {

/// One of the answers at the head of the sheet.
struct Fact {
  std::string label;   ///< "Start soaking"
  std::string value;   ///< "09:48", "6 of 8"
  std::string note;    ///< "Fri 13 Mar", "25 min in hand"; may be empty
  bool alert = false;  ///< the answer is not what was asked for
};

/// A step as one line.
struct StepRow {
  std::string id;
  planner::HalfMinutes start{}, end{};
  std::string from;    ///< "10:41"
  std::string until;   ///< "10:49"
  std::string length;  ///< "8 min"
  std::string who;     ///< names, or empty: it goes on by itself
  std::string what;    ///< with the sheets it concerns
  std::string where;   ///< the press, when there are several
  std::string cue;     ///< shown the first time in the day; the touch test every time
  Family family = Family::other;
  bool pull = false;  ///< the pass through the press
};

/// Steps that work towards one thing.
struct StepBlock {
  std::string heading;  ///< "Get ready", "Towards print 2: pull tone 11:42, key 11:45"
  std::vector<StepRow> rows;
};

/// A stretch of a resource's day.
struct Bar {
  planner::HalfMinutes start{}, end{};
  Family family = Family::other;
  std::string label;  ///< "3", "1p", "1-6"; may be empty
  std::string what;   ///< of its first step
  int amount = 1;
  bool pull = false;  ///< holds a pass through the press
};

struct Lane {
  std::string name;
  planner::ResourceKind kind = planner::ResourceKind::person;
  int capacity = 1;
  std::vector<Bar> bars;  ///< by start
};

struct Tick {
  planner::HalfMinutes at{};
  std::string text;  ///< "10:00"
};

/// Who does what, when: one lane a person, press, tub and plate.
struct Chart {
  planner::HalfMinutes from{}, to{};  ///< whole half hours on the wall clock
  std::vector<Tick> hours;
  std::vector<Lane> lanes;
  std::vector<Bar> pauses;
  std::vector<Family> key;  ///< the families that occur
  std::string before;       ///< what lies before the chart begins; may be empty
  std::string description;  ///< the chart in words
};

struct PullRow {
  std::string label;   ///< "print 3", "print 1 (proof)"
  std::string number;  ///< "3", "1 proof"
  std::string plate;
  std::string printer;
  std::string sheet;
  std::string at;
  std::string ready_from, ready_until;
  std::string moisture;       ///< "0.62"
  std::string band;           ///< "0.57-0.68"
  std::string chance;         ///< "94 %", ">99 %"
  std::string along, across;  ///< growth, "0.31 %"
  std::string misfit;         ///< "0.21 mm"; empty for a sheet's first plate
  std::string within;         ///< "93 %"; likewise
  std::string note;           ///< "outside its window"; usually empty
};

/// A batch of paper: its window in words, and what is drawn.
struct PaperBatch {
  std::string heading;      ///< "Sheets 1-6"
  std::string printable;    ///< "10:42 to 13:55"
  std::string window;       ///< "wet from 09:48, covered 10:12, printable 10:42 to 13:55"
  std::string description;  ///< the curve in words
  planner::Batch batch;
  std::vector<Tick> hours;
  struct Mark {
    planner::HalfMinutes at{};
    double moisture = 0;  ///< g/g, mean at the pull
  };
  std::vector<Mark> pulls;
};

/// A sheet, for whoever stands before it and asks whether it is ready.
struct SheetRow {
  std::string sheet;      ///< its pencil number
  std::string printable;  ///< "10:44 to Tue"
  std::string pulls;      ///< "tone 11:52, key 11:55"
};

/// Sheet and plate, how far the image may lie off and what is let pass, in millimetres.
struct RegisterSketch {
  double sheet_long = 0, sheet_short = 0;
  double plate_long = 0, plate_short = 0;  ///< as it lies: along the sheet's long side, and across
  bool grain_known = false, grain_long = false;
  double worst = 0, tolerance = 0;
  std::string plate;
  std::string caption;
  std::string description;
};

/// A line of the record card, filled in by pencil.
struct RecordRow {
  std::string print, sheet;
};

struct Noted {
  std::string text;
  std::string help;  ///< may be empty
};

struct AfterRow {
  std::string when;  ///< "Sun 15 Mar, 10:00"
  std::string what;
  std::string basis;
};

/// Everything that is shown of a plan, already chosen, ordered and put into words. All of its text
/// is clean(): renderers only escape for their own format.
struct View {
  std::string title;
  std::string date;
  std::string zone;
  std::vector<Fact> facts;
  std::string verdict;  ///< one sentence: does it all fit, and could it end earlier
  std::vector<std::string> summary;
  std::vector<PaperBatch> paper;
  std::vector<StepBlock> steps;
  Chart chart;
  std::vector<PullRow> pulls;
  std::string pulls_note;  ///< how to read the estimates
  bool any_misfit = false;
  std::vector<SheetRow> sheets;            ///< by number
  std::vector<std::string> touch_lines;    ///< what the fingers tell, and what to do about it
  std::string fit;                         ///< will the next plate fit; empty with one plate
  std::vector<std::string> fit_notes;      ///< what that rests on
  std::optional<RegisterSketch> sketch{};  ///< with a session only
  std::vector<std::string> lay_out;        ///< what to buy and lay out; with a session only
  std::vector<RecordRow> record;           ///< by printing order
  std::string after_basis;                 ///< of all that follows, when it is the same
  std::vector<std::string> late;      ///< what running late has changed; empty for a morning's plan
  std::string bottleneck;             ///< a sentence; empty without a plan
  std::vector<std::string> clashes;   ///< what cannot hold together
  std::vector<std::string> ways_out;  ///< one change each that lets all fit
  std::vector<std::string> gains;     ///< what one change would gain; empty unless asked for
  std::vector<std::string> short_of;
  std::vector<Noted> warnings;
  std::vector<AfterRow> after;
  std::vector<std::string> next_day;  ///< lines for its session; empty when the edition ends today
  std::vector<std::string> cautions;
  std::vector<std::string> assumptions;
  std::vector<std::string> air;  ///< what a log of the air gave; empty without one
  std::vector<std::string> defaults;
  std::string touch_test;
  std::string footer;
  std::string script_data;  ///< the day for the page's script, as JSON; empty without steps
};

[[nodiscard]] View view(const planner::Plan& plan, const Clock& clock);

/// What only the session knows: things to lay out, sheet and plate for the register map.
void add_session(const planner::Plan& plan, const session::Session& session, View& view);

}  // namespace dampline::report
