#include "journal_file.hpp"

#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <thread>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>

#include "data_files.hpp"
#include "descriptor.hpp"
#include "input_file.hpp"

namespace dampline::cli {
namespace {

namespace fs = std::filesystem;

Failure broke_off(const std::string& what, int error) {
  return {exit_status::io_failed, what + ": " + std::strerror(error),
          "the journal is as it was; check that the disk has room"};
}

Failure cannot_write(const std::string& path, const std::string& why, const std::string& help) {
  return {exit_status::cannot_create, "cannot write " + path + ": " + why, help};
}

// Past a file-size limit write() is to fail like on a full disk, not to end the program.
class NoSizeSignal {
 public:
  NoSizeSignal() { before_ = std::signal(SIGXFSZ, SIG_IGN); }
  ~NoSizeSignal() { std::signal(SIGXFSZ, before_); }
  NoSizeSignal(const NoSizeSignal&) = delete;
  NoSizeSignal& operator=(const NoSizeSignal&) = delete;

 private:
  void (*before_)(int) = nullptr;
};

void lock(const Descriptor& file, int how, const std::string& path) {
  using namespace std::chrono_literals;
  const auto give_up = std::chrono::steady_clock::now() + 10s;
  while (::flock(file.number, how | LOCK_NB) != 0) {
    if (errno == EINTR) continue;
    if (errno != EWOULDBLOCK) {
      throw broke_off("cannot lock " + path, errno);
    }
    if (std::chrono::steady_clock::now() > give_up) {
      throw Failure(exit_status::io_failed, path + " has been locked by another program for 10 s",
                    "end that program and log the entry again");
    }
    std::this_thread::sleep_for(1ms);
  }
}

// An editor that saves by renaming may have put another file in its place meanwhile.
bool still_named(const Descriptor& file, const std::string& path) {
  struct stat open {};
  struct stat named {};
  return ::fstat(file.number, &open) == 0 && ::stat(path.c_str(), &named) == 0 &&
         open.st_ino == named.st_ino && open.st_dev == named.st_dev;
}

std::size_t size_of(const Descriptor& file, const std::string& path) {
  struct stat about {};
  if (::fstat(file.number, &about) != 0) throw broke_off("cannot look at " + path, errno);
  if (!S_ISREG(about.st_mode)) {
    throw cannot_write(path, "it is not an ordinary file", "name a file: --journal FILE");
  }
  return static_cast<std::size_t>(about.st_size);
}

Descriptor opened(const std::string& path, int flags) {
  Descriptor file(::open(path.c_str(), flags | O_APPEND | O_CLOEXEC | O_NONBLOCK, 0666));
  if (file.number < 0) {
    const int error = errno;
    throw cannot_write(
        path, std::strerror(error),
        error == ENOENT ? "make the folder first" : "check that you may write there");
  }
  (void)size_of(file, path);
  return file;
}

Descriptor locked(const std::string& path, int flags) {
  for (;;) {
    auto file = opened(path, flags);
    lock(file, LOCK_EX, path);
    if (still_named(file, path)) return file;
  }
}

std::string bytes_from(const Descriptor& file, std::size_t at, std::size_t count,
                       const std::string& path) {
  std::string out(count, '\0');
  std::size_t have = 0;
  while (have < count) {
    const auto got =
        ::pread(file.number, out.data() + have, count - have, static_cast<off_t>(at + have));
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) throw broke_off("reading " + path + " broke off", errno);
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
  }
  out.resize(have);
  return out;
}

// All of it or none: what was written of it is cut off again.
void add_all(const Descriptor& file, std::string_view bytes, std::size_t size_before,
             const std::string& path) {
  const NoSizeSignal quiet;
  const auto fail = [&] {
    const int error = errno;
    if (::ftruncate(file.number, static_cast<off_t>(size_before)) != 0) {
      throw Failure(exit_status::io_failed,
                    "writing " + path + " broke off: " + std::string(std::strerror(error)),
                    "a part of the entry may stand at its end; the next one logged sets it aside");
    }
    throw broke_off("writing " + path + " broke off", error);
  };
  while (!bytes.empty()) {
    const auto written = ::write(file.number, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) fail();
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  if (::fdatasync(file.number) != 0) fail();
}

void sync_folder_of(const std::string& path) {
  const auto parent = fs::path(path).parent_path();
  const Descriptor folder(
      ::open(parent.empty() ? "." : parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (folder.number >= 0) ::fsync(folder.number);
}

// Copied and synced before it is cut off: a crash in between leaves it in both files.
SetAside set_aside(const Descriptor& file, std::string_view text, const journal::Torn& torn,
                   const std::string& path) {
  SetAside out{path + ".torn", torn.line, text.size() - torn.begin};
  const auto tail = "# cut off at line " + std::to_string(torn.line) + "\n" +
                    std::string(text.substr(torn.begin)) + "\n";
  const auto side = opened(out.file, O_RDWR | O_CREAT);
  const auto size = size_of(side, out.file);
  const auto from = size > tail.size() ? size - tail.size() : 0;
  if (bytes_from(side, from, tail.size(), out.file) != tail) {
    add_all(side, tail, size, out.file);
    sync_folder_of(out.file);
  }
  if (::ftruncate(file.number, static_cast<off_t>(torn.begin)) != 0 ||
      ::fdatasync(file.number) != 0) {
    throw broke_off("cannot cut the torn entry off " + path, errno);
  }
  return out;
}

// Whether the file ends as every entry written here ends; then there is no need to read it.
bool ends_well(const Descriptor& file, std::size_t size, const std::string& path) {
  const auto ending = "\n" + std::string(journal::closing_line) + "\n";
  return size >= ending.size() &&
         bytes_from(file, size - ending.size(), ending.size(), path) == ending;
}

Failure no_journal(const std::string& path) {
  return {exit_status::bad_data, path + " is no journal: it holds no [[entry]]",
          "name a file that dampline log has written, or one that is not there yet"};
}

std::optional<SetAside> mend(const Descriptor& file, const std::string& path) {
  const auto size = size_of(file, path);
  if (size == 0 || ends_well(file, size, path)) return std::nullopt;
  if (size > journal::largest_journal) return std::nullopt;
  const auto text = bytes_from(file, 0, size, path);
  if (!journal::is_journal(text)) throw no_journal(path);
  const auto torn = journal::read(text, path).torn;
  if (!torn) return std::nullopt;
  return set_aside(file, text, *torn, path);
}

}  // namespace

std::string journal_path(const std::optional<std::string>& named) {
  if (named) return *named;
  const auto folder = state_directory(surroundings_of_process());
  if (folder.empty()) {
    throw Failure(exit_status::usage,
                  "no place for the journal: neither XDG_STATE_HOME nor HOME "
                  "is set",
                  "name one: --journal FILE");
  }
  return (folder / "journal.toml").string();
}

std::optional<SetAside> append_to_journal(const std::string& path, std::string_view block) {
  if (path == "-") {
    throw Failure(exit_status::usage, "standard input is no journal to write to",
                  "name a file: --journal FILE");
  }
  const auto folder = fs::path(path).parent_path();
  std::error_code error;
  if (!folder.empty() && folder == state_directory(surroundings_of_process()) &&
      fs::create_directories(folder, error)) {
    fs::permissions(folder, fs::perms::owner_all, error);
  }
  const bool was_there = fs::exists(path, error);
  const auto file = locked(path, O_RDWR | O_CREAT);
  auto aside = mend(file, path);
  const auto size = size_of(file, path);
  if (size + block.size() > journal::largest_journal) {
    throw cannot_write(path, "it holds 64 MiB, and no more are read",
                       "move it away, or begin another: --journal FILE");
  }
  const auto text = (size == 0 ? std::string(journal::preamble()) : "") + std::string(block);
  try {
    add_all(file, text, size, path);
  } catch (const Failure&) {
    if (size == 0 && !was_there) ::unlink(path.c_str());
    throw;
  }
  if (size == 0) sync_folder_of(path);
  return aside;
}

JournalText read_journal_text(const std::string& path, Streams& io) {
  JournalText out;
  std::error_code error;
  if (path != "-" && !fs::exists(path, error) && !error) {
    throw Failure(exit_status::no_input, "there is no journal " + path + " yet",
                  "dampline log note TEXT begins one");
  }
  {
    // Held while reading, so that no entry is seen half written.
    const Descriptor file(path == "-" ? -1
                                      : ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (file.number >= 0) lock(file, LOCK_SH, path);
    out.text = read_input(path, io, journal::largest_journal);
  }
  if (!journal::is_journal(out.text)) throw no_journal(input_name(path));
  auto torn = journal::torn_tail(out.text);
  if (!torn) return out;
  try {
    if (path != "-") {
      const auto file = locked(path, O_RDWR);
      out.set_aside = mend(file, path);
      out.text = bytes_from(file, 0, size_of(file, path), path);
      torn = journal::torn_tail(out.text);
    }
  } catch (const Failure&) {
    // May not be written to: it is left where it is.
  }
  if (torn) {
    out.torn_line = torn->line;
    out.text.resize(torn->begin);
  }
  return out;
}

std::string journal_end(const std::string& path) {
  constexpr std::size_t enough = 256 * 1024;
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  struct stat about {};
  if (file.number < 0 || ::fstat(file.number, &about) != 0 || !S_ISREG(about.st_mode)) return {};
  const auto size = static_cast<std::size_t>(about.st_size);
  const auto from = size > enough ? size - enough : 0;
  const auto text = bytes_from(file, from, size - from, path);
  const auto head = "\n" + std::string(journal::head_line) + "\n";
  const auto first = from == 0 ? 0 : text.find(head);
  return first == std::string::npos ? std::string() : text.substr(first);
}

std::string told(const std::string& path, const SetAside& tail) {
  return path + ":" + std::to_string(tail.line) +
         ": warning: the last entry was cut off while it was written\nhelp: its " +
         std::to_string(tail.bytes) + " bytes stand in " + tail.file +
         " now; every entry before it is kept\n";
}

}  // namespace dampline::cli
