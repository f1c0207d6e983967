#include "output_file.hpp"

#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <ostream>
#include <vector>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace dampline::cli {
namespace {

namespace fs = std::filesystem;

// Ctrl-C between the temporary file and its renaming would leave the temporary file lying about.
class HoldSignals {
 public:
  HoldSignals() {
    sigset_t held;
    sigemptyset(&held);
    for (const int s : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&held, s);
    sigprocmask(SIG_BLOCK, &held, &before_);
  }
  ~HoldSignals() { sigprocmask(SIG_SETMASK, &before_, nullptr); }
  HoldSignals(const HoldSignals&) = delete;
  HoldSignals& operator=(const HoldSignals&) = delete;

 private:
  sigset_t before_{};
};

// A file beside the target that is gone again unless it was renamed into place.
struct Temporary {
  std::string path;
  int descriptor = -1;
  bool renamed = false;
  Temporary() = default;
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;
  ~Temporary() {
    if (descriptor >= 0) ::close(descriptor);
    if (descriptor >= 0 && !renamed) ::unlink(path.c_str());
  }
};

Failure cannot_create(const std::string& path, const std::string& why, const std::string& help) {
  return {exit_status::cannot_create, "cannot create " + path + ": " + why, help};
}

Failure broke_off(const std::string& path) {
  return {exit_status::io_failed,
          "writing " + path + " broke off: " + std::string(std::strerror(errno)),
          "nothing was changed; check that the disk has room"};
}

void write_all(int descriptor, std::string_view bytes, const std::string& path) {
  while (!bytes.empty()) {
    const auto written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) throw broke_off(path);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
}

// Devices and pipes cannot be replaced by renaming: /dev/full, /dev/stdout, a named pipe.
void write_in_place(const std::string& path, std::string_view bytes) {
  Temporary file;
  file.renamed = true;
  file.descriptor = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
  if (file.descriptor < 0) {
    throw cannot_create(path, std::strerror(errno), "check that you may write it");
  }
  write_all(file.descriptor, bytes, path);
}

mode_t mode_for(const fs::path& target) {
  struct stat about {};
  if (::stat(target.c_str(), &about) == 0) return about.st_mode & 07777;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666 & ~mask;
}

}  // namespace

void write_output(const std::string& path, std::string_view bytes, Streams& io,
                  std::span<const std::string> inputs, Existing existing) {
  if (path == "-") {
    io.out << bytes;
    return;
  }
  std::error_code ignored;
  const bool there = fs::exists(path, ignored);
  for (const auto& input : inputs) {
    if (there && input != "-" && fs::equivalent(path, input, ignored)) {
      throw cannot_create(path, "it is the file being read", "choose another name");
    }
  }
  if (fs::is_directory(path, ignored)) {
    throw cannot_create(path, "it is a directory", "name a file inside it");
  }
  if (there && existing == Existing::refuse) {
    throw cannot_create(path, "it exists already",
                        "choose another name, or move the old file away");
  }
  if (there && !fs::is_regular_file(path, ignored)) return write_in_place(path, bytes);

  const fs::path target = there ? fs::canonical(path, ignored) : fs::path(path);
  const HoldSignals hold;
  Temporary file;
  file.path = (target.parent_path() / ("." + target.filename().string() + ".XXXXXX")).string();
  file.descriptor = ::mkostemp(file.path.data(), O_CLOEXEC);
  if (file.descriptor < 0) {
    throw cannot_create(
        path, std::strerror(errno),
        errno == ENOENT ? "make the folder first" : "check that you may write there");
  }
  ::fchmod(file.descriptor, mode_for(target));
  write_all(file.descriptor, bytes, path);
  if (::fsync(file.descriptor) != 0) throw broke_off(path);
  if (::rename(file.path.c_str(), target.c_str()) != 0) {
    throw cannot_create(path, std::strerror(errno), "check that you may write there");
  }
  file.renamed = true;
  const auto folder = target.parent_path().empty() ? fs::path(".") : target.parent_path();
  const int directory = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (directory >= 0) {
    ::fsync(directory);
    ::close(directory);
  }
}

}  // namespace dampline::cli
