#include "terminal.hpp"

#include <cerrno>
#include <charconv>
#include <cstdlib>
#include <string>

#include <sys/ioctl.h>
#include <unistd.h>

namespace dampline::cli {
namespace {

constexpr std::size_t buffer_size = 1 << 16;
constexpr int narrowest = 20;
constexpr int widest = 1000;
constexpr int usual_columns = 80;

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

int columns() {
  const auto stated = environment("COLUMNS");
  int value = 0;
  const auto got = std::from_chars(stated.data(), stated.data() + stated.size(), value);
  const bool whole = got.ec == std::errc() && got.ptr == stated.data() + stated.size();
  if (whole && value >= narrowest && value <= widest) return value;
  winsize size{};
  if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col >= narrowest) {
    return size.ws_col;
  }
  return usual_columns;
}

// The locale's character set by name alone, so that nothing depends on installed locales.
bool is_utf8() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    auto value = environment(name);
    if (value.empty()) continue;
    for (char& c : value) {
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return value.find("utf-8") != std::string::npos || value.find("utf8") != std::string::npos;
  }
  return false;
}

}  // namespace

DescriptorBuffer::DescriptorBuffer(int descriptor) : descriptor_(descriptor), buffer_(buffer_size) {
  setp(buffer_.data(), buffer_.data() + buffer_.size());
}

DescriptorBuffer::~DescriptorBuffer() { DescriptorBuffer::sync(); }

DescriptorBuffer::int_type DescriptorBuffer::overflow(int_type c) {
  if (sync() != 0) return traits_type::eof();
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  return sputc(traits_type::to_char_type(c));
}

int DescriptorBuffer::sync() {
  const char* at = pbase();
  while (at < pptr() && error_ == 0) {
    const auto written = ::write(descriptor_, at, static_cast<std::size_t>(pptr() - at));
    if (written < 0) {
      if (errno != EINTR) error_ = errno;
    } else {
      at += written;
    }
  }
  setp(buffer_.data(), buffer_.data() + buffer_.size());
  return error_ == 0 ? 0 : -1;
}

Streams streams_of_process(std::istream& in, std::ostream& out, std::ostream& err) {
  const bool colour = environment("NO_COLOR").empty() && environment("TERM") != "dumb";
  const bool out_terminal = ::isatty(STDOUT_FILENO) == 1;
  const bool err_terminal = ::isatty(STDERR_FILENO) == 1;
  return {.in = in,
          .out = out,
          .err = err,
          .out_is_terminal = out_terminal,
          .err_is_terminal = err_terminal,
          .columns = columns(),
          .utf8 = is_utf8(),
          .out_colour = colour && out_terminal,
          .err_colour = colour && err_terminal};
}

}  // namespace dampline::cli
