#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/worked_day.hpp>
#include <dampline/report/clock.hpp>
#include <dampline/report/plan_text.hpp>
#include <dampline/report/view.hpp>
#include <dampline/session/session.hpp>

#include "options.hpp"

namespace dampline::cli {

/// What every command that ends in a plan is told: how hard to look for it, where to write it.
struct PlanWords {
  std::string path;  ///< of the session
  std::optional<std::string> html;
  std::optional<std::string> json;
  std::optional<std::string> ics;
  std::optional<std::string> svg;
  std::optional<std::string> pdf;
  std::optional<std::string> csv;
  std::optional<std::string> csv_dialect;
  bool reminders = false;  ///< alarms of the calendar as events too
  std::optional<std::string> methods;
  bool quiet = false;
  planner::PlanOptions plan;
  int conflicts = 60000;
  int seed = 1;
};

/// Adds FILE and the options of PlanWords.
void add_plan_options(Options& options, PlanWords& words);

/// Adds what any command that plans is told of it: own methods, and how hard to look.
void add_work_options(Options& options, PlanWords& words);

/// The options of planning, once the words are read.
[[nodiscard]] planner::PlanOptions plan_options(const PlanWords& words);

/// The day planned. None when the session does not go with what is known of papers and processes:
/// what is wrong has been printed.
[[nodiscard]] std::optional<planner::WorkedDay> worked_day(const session::Session& session,
                                                           const planner::Knowledge& knowledge,
                                                           const PlanWords& words, Streams& io);

/// A plan and its session as sheets and pages show them.
[[nodiscard]] report::View view_of(const planner::Plan& plan, const session::Session& session);

/// The files a command reads besides its journal and lists: not to be written over.
[[nodiscard]] std::vector<std::string> inputs_of(const PlanWords& words);

/// When a file was last changed: $SOURCE_DATE_EPOCH, or what the file system says of it, or the
/// clock for standard input. Calendars are stamped with it, so that the same file gives the same
/// bytes and a changed one takes the place of what was imported before.
[[nodiscard]] report::Instant revised_at(const std::string& path);

/// The studio's time.
[[nodiscard]] report::Clock clock_of(const session::Session& session);

/// Text for the stream the answer goes to.
[[nodiscard]] report::TextOptions text_options(const Streams& io);

/// A file a command was asked for, made when its turn comes.
struct OutputFile {
  std::optional<std::string> path;
  std::function<std::string()> bytes;
};
/// Writes those that have a path. Two to one place are refused before any is written.
void write_files(const std::vector<OutputFile>& files, Streams& io,
                 const std::vector<std::string>& inputs);

/// Writes the files asked for, and the plan to io.out unless that is taken or not wanted.
/// `inputs` are files besides the session that must not be written over.
void write_plan(const PlanWords& words, const planner::Plan& plan, const session::Session& session,
                Streams& io, std::vector<std::string> inputs = {});

}  // namespace dampline::cli
