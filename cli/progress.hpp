#pragma once

#include <ostream>
#include <string>

#include "command.hpp"

namespace dampline::cli {

/// A line on a terminal's standard error that says how far the work is, and is gone afterwards.
/// Nothing at all when that is no terminal, or when it should be quiet.
class Progress {
 public:
  Progress(Streams& io, bool quiet) : err_(io.err), shown_(io.err_is_terminal && !quiet) {}
  ~Progress() { clear(); }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void say(const std::string& what) {
    if (!shown_) return;
    clear();
    err_ << what << std::flush;
    width_ = what.size();
  }
  /// Before anything else is written there.
  void clear() {
    if (width_ > 0) err_ << '\r' << std::string(width_, ' ') << '\r' << std::flush;
    width_ = 0;
  }

 private:
  std::ostream& err_;
  bool shown_;
  std::size_t width_ = 0;
};

}  // namespace dampline::cli
