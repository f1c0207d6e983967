#pragma once

#include <span>
#include <string>
#include <string_view>

#include "command.hpp"

namespace dampline::cli {

enum class Existing { replace, refuse };  ///< what to do when the file is there already

/// Writes a whole file at once or not at all: a temporary file beside the target, synced, renamed
/// over it. "-" is io.out. A link is followed to what it names; the mode of an existing file is
/// kept. Throws Failure: 73 cannot be created, is one of `inputs`, or exists and Existing::refuse;
/// 74 writing broke off (disk full), and then the old file stands untouched.
void write_output(const std::string& path, std::string_view bytes, Streams& io,
                  std::span<const std::string> inputs = {}, Existing existing = Existing::replace);

}  // namespace dampline::cli
