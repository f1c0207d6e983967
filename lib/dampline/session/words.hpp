#pragma once

#include <string>

#include <dampline/session/session.hpp>

/// What a session's choices are called in its file, and rules of size that more than one room asks.
namespace dampline::session {

[[nodiscard]] std::string word(DryingMethod method);
[[nodiscard]] std::string word(AirMovement air);

/// Laid either way round, to a tenth of a millimetre: sizes are stated no finer.
[[nodiscard]] bool lies_on(const units::Size& small, const units::Size& large);

}  // namespace dampline::session
