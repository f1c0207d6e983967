#pragma once

#include <unistd.h>

namespace dampline::cli {

/// A file descriptor that is closed with its owner.
struct Descriptor {
  int number = -1;
  explicit Descriptor(int n) : number(n) {}
  Descriptor(Descriptor&& other) noexcept : number(other.number) { other.number = -1; }
  Descriptor& operator=(Descriptor&&) = delete;
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number >= 0) ::close(number);
  }
};

}  // namespace dampline::cli
