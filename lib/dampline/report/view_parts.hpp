#pragma once

#include <functional>
#include <string>
#include <vector>

#include <dampline/report/view.hpp>

/// The pieces of a view, each from the plan alone.
namespace dampline::report {

[[nodiscard]] std::vector<StepBlock> step_blocks(const planner::Plan& plan, const Clock& clock);
[[nodiscard]] Chart chart(const planner::Plan& plan, const Clock& clock);
[[nodiscard]] std::vector<PaperBatch> paper_batches(const planner::Plan& plan, const Clock& clock);

/// What being late has changed, a sentence each; and the answers at the head of its sheet that a
/// plan of the morning has not.
[[nodiscard]] std::vector<std::string> late_lines(const planner::Plan& plan, const Clock& clock);
[[nodiscard]] std::vector<Fact> late_facts(const planner::Plan& plan, const Clock& clock);
/// What to write for the next day of an edition.
[[nodiscard]] std::vector<std::string> next_day_lines(const planner::Plan& plan);
/// "tone, print 1 (proof)"
[[nodiscard]] std::string pull_name(const planner::Pull& pull);

/// What cannot hold together, what would make it fit, and what one change would gain.
void add_ways(const planner::Plan& plan, const Clock& clock, View& view);

/// Each sheet's window and pulls; what the fingers tell; the record card's lines.
void add_sheets(const planner::Plan& plan, const Clock& clock, View& view);
/// Will a later plate fit: the sentence and what it rests on.
void add_fit(const planner::Plan& plan, View& view);
/// What page_day.js reads. Times are milliseconds since 1970, so that a clock that is put forward
/// moves nothing; `<` and `&` are escaped, so that no text of a session ends the script.
[[nodiscard]] std::string script_data(const planner::Plan& plan, const Clock& clock,
                                      const View& view);

/// Names of what a step uses, "A, B".
[[nodiscard]] std::string resource_names(const planner::Plan& plan, const planner::Step& step,
                                         const std::function<bool(planner::ResourceKind)>& wanted);
/// "print 3", "print 1 (proof)"
[[nodiscard]] std::string print_label(int print, bool proof);
/// Whole per cent; never "100 %" or "0 %", which no estimate can claim.
[[nodiscard]] std::string chance_text(units::Chance chance);
/// "1-4, 7"
[[nodiscard]] std::string number_list(std::vector<int> numbers);
/// Whole hours on the wall clock within [from, to].
[[nodiscard]] std::vector<Tick> hour_ticks(const planner::Plan& plan, const Clock& clock,
                                           planner::HalfMinutes from, planner::HalfMinutes to);

}  // namespace dampline::report
