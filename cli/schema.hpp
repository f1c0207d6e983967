#pragma once

#include <string>

namespace dampline::cli {

/// The key table of session files as a JSON Schema (draft 4, the newest that TOML editors are known
/// to take). data/session.schema.json is this text.
[[nodiscard]] std::string session_schema();

}  // namespace dampline::cli
