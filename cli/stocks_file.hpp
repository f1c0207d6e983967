#pragma once

#include <optional>
#include <string>

#include <dampline/material/catalogue.hpp>

#include "command.hpp"

namespace dampline::cli {

/// The stocks of a file, or of the data's stocks.toml when none is named. Everything wrong in it is
/// printed on io.err, in file order; none then, and the command returns exit_status::bad_data.
[[nodiscard]] std::optional<material::Catalogue> load_stocks(const std::optional<std::string>& path,
                                                             Streams& io);

/// The stock of that name; Failure with the nearest names when there is none.
[[nodiscard]] const material::Stock& stock_named(const material::Catalogue& catalogue,
                                                 const std::string& name);

}  // namespace dampline::cli
