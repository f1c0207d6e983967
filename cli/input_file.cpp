#include "input_file.hpp"

#include <cerrno>
#include <cstring>
#include <istream>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "descriptor.hpp"

namespace dampline::cli {
namespace {

constexpr std::size_t chunk = 1 << 16;

Failure too_large(const std::string& name, std::size_t cap) {
  return {exit_status::bad_data, name + " is larger than " + std::to_string(cap >> 10) + " KiB",
          "is it the right file? Nothing of this kind is so long"};
}

std::string read_stream(std::istream& in, const std::string& name, std::size_t cap) {
  std::string text;
  std::string part(chunk, '\0');
  while (in.read(part.data(), static_cast<std::streamsize>(part.size())), in.gcount() > 0) {
    text.append(part, 0, static_cast<std::size_t>(in.gcount()));
    if (text.size() > cap) throw too_large(name, cap);
  }
  if (in.bad()) throw Failure(exit_status::io_failed, "reading " + name + " broke off");
  return text;
}

}  // namespace

std::string input_name(const std::string& path) { return path == "-" ? "(standard input)" : path; }

std::string read_input(const std::string& path, Streams& io, std::size_t cap) {
  const auto name = input_name(path);
  if (path == "-") return read_stream(io.in, name, cap);
  // Non-blocking, so that a pipe nobody writes to is refused instead of waited for.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number < 0) {
    const int error = errno;
    throw Failure(exit_status::no_input, "cannot open " + name + ": " + std::strerror(error),
                  error == ENOENT ? "check the name and the folder" : "check that you may read it");
  }
  struct stat about {};
  if (::fstat(file.number, &about) != 0 || S_ISDIR(about.st_mode)) {
    throw Failure(exit_status::no_input, name + " is a directory, not a file",
                  "name a file inside it");
  }
  if (!S_ISREG(about.st_mode) && !S_ISFIFO(about.st_mode) && !S_ISCHR(about.st_mode)) {
    throw Failure(exit_status::no_input, name + " is not a file that can be read",
                  "name an ordinary file, or - for standard input");
  }
  // /dev/stdin and process substitution are pipes with a writer: wait for them from here on.
  ::fcntl(file.number, F_SETFL, 0);
  std::string text;
  std::string part(chunk, '\0');
  for (;;) {
    const auto got = ::read(file.number, part.data(), part.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      throw Failure(exit_status::io_failed,
                    "reading " + name + " broke off: " + std::string(std::strerror(errno)));
    }
    if (got == 0) return text;
    text.append(part, 0, static_cast<std::size_t>(got));
    if (text.size() > cap) throw too_large(name, cap);
  }
}

}  // namespace dampline::cli
