#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

/// Where stocks.toml and the other data files are.
namespace dampline::cli {

/// What the search depends on; the process's own by default_surroundings.
struct Surroundings {
  std::string dampline_data_dir;     ///< $DAMPLINE_DATA_DIR
  std::string xdg_data_home;         ///< $XDG_DATA_HOME
  std::string home;                  ///< $HOME
  std::string xdg_data_dirs;         ///< $XDG_DATA_DIRS
  std::filesystem::path executable;  ///< where the program itself is
  std::string xdg_state_home{};      ///< $XDG_STATE_HOME
};

[[nodiscard]] Surroundings surroundings_of_process();

/// Directories in the order they are looked in: $DAMPLINE_DATA_DIR; the user's own
/// ($XDG_DATA_HOME/dampline); the source tree's data when the program is run from its build tree,
/// else ../share/dampline beside it; $XDG_DATA_DIRS. Relative paths in XDG variables are ignored,
/// as the XDG base directory specification says.
[[nodiscard]] std::vector<std::filesystem::path> data_directories(const Surroundings& s);

/// Where what the program keeps between runs is: $XDG_STATE_HOME/dampline, by default
/// ~/.local/state/dampline; empty when neither variable says an absolute path.
[[nodiscard]] std::filesystem::path state_directory(const Surroundings& s);

/// The first of the data directories that has `name`. Failure 66 naming every place looked in when
/// none has.
[[nodiscard]] std::filesystem::path find_data(std::string_view name);

/// Its bytes.
[[nodiscard]] std::string read_data(std::string_view name);

}  // namespace dampline::cli
