#pragma once

#include <string>
#include <string_view>

#include <dampline/session/keys.hpp>

namespace dampline::session {

/// A commented session with every key: what is needed and what is usual as it might be written,
/// the rest switched off with #. It reads without an error.
[[nodiscard]] std::string starter();

/// What a key takes and what holds without it: "1 degC to 45 degC; else 20 degC". May be empty.
[[nodiscard]] std::string limits(const Key& key);

}  // namespace dampline::session
