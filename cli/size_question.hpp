#pragma once

#include <optional>
#include <string>

#include <dampline/planner/climate.hpp>
#include <dampline/planner/look_up.hpp>
#include <dampline/units/parse.hpp>

#include "size_answer.hpp"

/// From a session and the command's words to what the library is asked.
namespace dampline::cli {

/// The words of `dampline size`.
struct SizeWords {
  std::string path;
  std::optional<std::string> json, svg, lay, travel, tissue, methods;
  std::optional<size::Marks> along, across;
  std::optional<units::Duration> between;
  std::optional<units::Strain> nip;
  bool blank_pass = false;
  bool quiet = false;
  int samples = 64;
  int seed = 1;
};

/// Finds how the sheet is damped, as a plan would, and compares the ways of printing it.
[[nodiscard]] SizeAnswer answered(const SizeWords& words, const session::Session& session,
                                  const planner::Knowledge& knowledge,
                                  const planner::Subject& subject,
                                  const planner::StudioAir& studio);

}  // namespace dampline::cli
