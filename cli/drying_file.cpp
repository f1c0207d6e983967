#include "drying_file.hpp"

#include "command.hpp"
#include "data_files.hpp"

namespace dampline::cli {

planner::DryingRules read_drying_rules() try {
  return planner::read_drying(read_data("drying.toml"), find_data("drying.toml").string());
} catch (const planner::DataError& e) {
  throw Failure(exit_status::bad_data, e.what(), "`dampline paths` tells which file is in use");
}

}  // namespace dampline::cli
