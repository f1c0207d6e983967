#pragma once

#include <string>
#include <vector>

#include <dampline/method/stage.hpp>
#include <dampline/planner/craft.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/planner/treatment.hpp>
#include <dampline/scheduling/problem.hpp>
#include <dampline/session/session.hpp>

/// The day as a scheduling problem, with what each activity means.
namespace dampline::planner {

/// A piece of a block: one line of the step sheet.
struct Part {
  std::string kind;
  std::string what;
  std::string cue;
  HalfMinutes length{};
  std::vector<Use> uses;
  std::vector<int> sheets;
  std::string plate;
  int print = 0;
};

/// What one activity of the problem does: parts one after the other, without a pause.
struct Block {
  std::string id;
  std::vector<Part> parts;
};

/// A moment inside a block.
struct Moment {
  int activity = 0;
  HalfMinutes offset{};
};

/// One plate printed on one sheet.
struct DraftPull {
  int print = 0;
  bool proof = false;
  int plate = 0;  ///< index into Session::plates
  int sheet = 0;  ///< from 1
  int printer = 0;
  int press = 0;  ///< index into Equipment::presses
  Moment inked;   ///< the plate is ready for it
  Moment laid;    ///< the sheet leaves its cover
  Moment pulled;  ///< the pass through the press begins
  Moment lifted;  ///< the sheet is off the press
  bool first_on_sheet = true;
};

/// Something done to a sheet that is covered already: it is misted, blotted once more, or waits in
/// another way from then on.
struct Tending {
  Moment at;
  std::vector<method::Stage> stages;  ///< with hands
  method::Stage hold;                 ///< how it waits after them
};

struct DraftSheet {
  int number = 0;
  int batch = 0;
  Moment wet;                     ///< goes into the water, or is damped
  Moment lifted;                  ///< out of the tub; equal to `covered` when there is no tub
  Moment covered;                 ///< blotted (or damped) and under cover
  std::vector<Tending> tended{};  ///< by time
};

struct DraftBatch {
  std::vector<int> sheets;
  Moment wet_from;
  Moment covered_from;
};

struct Draft {
  scheduling::Problem problem;
  std::vector<Block> blocks;  ///< one for each activity; empty for source and sink
  std::vector<Resource> resources;
  std::vector<DraftPull> pulls;
  std::vector<DraftSheet> sheets;
  std::vector<DraftBatch> batches;
  std::vector<std::pair<int, int>> soaks;  ///< load and blot activities between which sheets soak
  std::vector<int> movable_later;          ///< activities that may wait, first to be moved first
};

/// How much of the edition goes into the draft, and in how many soaks.
struct Extent {
  int proofs = 0;
  int prints = 0;
  int batches = 1;
  std::vector<int> sheets_in{};  ///< of each batch, where that is settled; else alike
  int presses = 1;               ///< lanes() over which the prints are shared out, in turn
};

/// The latest a resource may still be busy; the draft's horizon.
[[nodiscard]] HalfMinutes day_length(const session::Session& session);

/// Builds the problem of printing `extent` of the session with sheets treated like this.
[[nodiscard]] Draft draft(const session::Session& session, const Craft& craft,
                          const Treatment& treatment, const Extent& extent);

}  // namespace dampline::planner
