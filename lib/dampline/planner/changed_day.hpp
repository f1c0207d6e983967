#pragma once

#include <optional>

#include <dampline/planner/treatment.hpp>
#include <dampline/session/session.hpp>

/// A session with one thing changed, and how its paper is treated: as before, but for what hangs on
/// the clock.
namespace dampline::planner {

struct ChangedDay {
  session::Session session;
  Treatment treatment;
};

[[nodiscard]] ChangedDay ending(const session::Session& session, const Treatment& treatment,
                                session::ClockTime until);
[[nodiscard]] ChangedDay opening(const session::Session& session, const Treatment& treatment,
                                 session::ClockTime from);

/// With one more person, who handles paper and, if `inks`, ink.
[[nodiscard]] ChangedDay with_person(const session::Session& session, const Treatment& treatment,
                                     bool inks);

[[nodiscard]] ChangedDay with_tub(const session::Session& session, const Treatment& treatment,
                                  int sheets);

/// One break at another time, as long as before. None where it would leave the day or run into
/// another.
[[nodiscard]] std::optional<ChangedDay> with_break_at(const session::Session& session,
                                                      const Treatment& treatment, std::size_t which,
                                                      session::ClockTime at);

}  // namespace dampline::planner
