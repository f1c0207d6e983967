#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include <dampline/session/session.hpp>

namespace dampline::session {

/// Where and when a file is read: what stands in for a date or zone it does not state.
struct Here {
  std::optional<std::chrono::year_month_day> today{};  ///< none: a file without a date is an error
  std::string zone = "UTC";                            ///< IANA name
};

/// A session from its text, or everything that is wrong with it, in file order. `file` is what
/// messages call it. Every default used is listed in Session::defaults_used, what is doubtful in
/// Session::warnings. Names of papers, processes, inks and steps are not looked up here.
[[nodiscard]] std::variant<Session, InputErrors> read(std::string_view text, std::string_view file,
                                                      const Here& here = {});

}  // namespace dampline::session
