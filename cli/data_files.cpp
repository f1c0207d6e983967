#include "data_files.hpp"

#include <cstdlib>
#include <sstream>

#include "command.hpp"
#include "input_file.hpp"

namespace dampline::cli {
namespace {

namespace fs = std::filesystem;

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

bool lies_under(const fs::path& path, const fs::path& folder) {
  const auto relative = path.lexically_relative(folder);
  return !relative.empty() && *relative.begin() != "..";
}

}  // namespace

Surroundings surroundings_of_process() {
  std::error_code ignored;
  return {.dampline_data_dir = environment("DAMPLINE_DATA_DIR"),
          .xdg_data_home = environment("XDG_DATA_HOME"),
          .home = environment("HOME"),
          .xdg_data_dirs = environment("XDG_DATA_DIRS"),
          .executable = fs::read_symlink("/proc/self/exe", ignored),
          .xdg_state_home = environment("XDG_STATE_HOME")};
}

std::vector<fs::path> data_directories(const Surroundings& s) {
  std::vector<fs::path> out;
  if (!s.dampline_data_dir.empty()) out.emplace_back(s.dampline_data_dir);
  if (fs::path(s.xdg_data_home).is_absolute()) {
    out.push_back(fs::path(s.xdg_data_home) / "dampline");
  } else if (fs::path(s.home).is_absolute()) {
    out.push_back(fs::path(s.home) / ".local/share/dampline");
  }
  if (lies_under(s.executable, DAMPLINE_BUILD_TREE)) {
    out.emplace_back(DAMPLINE_BUILD_DATA);
  } else if (!s.executable.empty()) {
    out.push_back((s.executable.parent_path() / ".." / "share" / "dampline").lexically_normal());
  }
  std::istringstream dirs(s.xdg_data_dirs.empty() ? "/usr/local/share:/usr/share"
                                                  : s.xdg_data_dirs);
  for (std::string dir; std::getline(dirs, dir, ':');) {
    if (fs::path(dir).is_absolute()) out.push_back(fs::path(dir) / "dampline");
  }
  return out;
}

fs::path state_directory(const Surroundings& s) {
  if (fs::path(s.xdg_state_home).is_absolute()) return fs::path(s.xdg_state_home) / "dampline";
  if (fs::path(s.home).is_absolute()) return fs::path(s.home) / ".local/state/dampline";
  return {};
}

fs::path find_data(std::string_view name) {
  std::string looked_in;
  for (const auto& folder : data_directories(surroundings_of_process())) {
    std::error_code ignored;
    if (fs::is_regular_file(folder / name, ignored)) return folder / name;
    looked_in += (looked_in.empty() ? "" : ", ") + folder.string();
  }
  throw Failure(exit_status::no_input, "the data file " + std::string(name) + " is not installed",
                "looked in " + looked_in + "; DAMPLINE_DATA_DIR may name another folder");
}

std::string read_data(std::string_view name) {
  std::istringstream nothing;
  std::ostringstream nowhere;
  Streams io{.in = nothing, .out = nowhere, .err = nowhere};
  return read_input(find_data(name).string(), io);
}

}  // namespace dampline::cli
