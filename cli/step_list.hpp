#pragma once

#include <string>
#include <vector>

#include "command.hpp"

namespace dampline::cli {

/// A line of a list of steps: "ink-3-key 10:40 10:52". What stands behind # is no part of it.
struct ListedStep {
  std::string place;  ///< "done.txt:3"
  std::string step;
  std::string start;  ///< a clock time as written; empty: not said
  std::string end;    ///< likewise; empty with a start: it is being done
};

/// The list at `path` ("-": io.in), as the page writes it and `late --done @LIST` takes it. More
/// than three words on a line are a Failure 65 that names the line.
[[nodiscard]] std::vector<ListedStep> read_step_list(const std::string& path, Streams& io);

}  // namespace dampline::cli
