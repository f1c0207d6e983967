#pragma once

#include <optional>
#include <string>

#include <dampline/method/book.hpp>

#include "command.hpp"

namespace dampline::cli {

/// The book of methods that is installed, a printer's own file before it when one is named.
/// Everything wrong in either is printed on io.err, in file order; none then, and the command
/// returns exit_status::bad_data.
[[nodiscard]] std::optional<method::Book> load_methods(const std::optional<std::string>& own,
                                                       Streams& io);

/// The method of that name; Failure with the nearest names when there is none.
[[nodiscard]] const method::Method& method_named(const method::Book& book, const std::string& name);

}  // namespace dampline::cli
