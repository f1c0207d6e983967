#include <algorithm>
#include <map>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "house/source_text.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

// The floors, lowest first. A room may use any room on a floor below its own, none above, and none
// beside it.
const std::vector<std::vector<std::string>> floors{{"units", "scheduling"},
                                                   {"air"},
                                                   {"material"},
                                                   {"stack"},
                                                   {"method"},
                                                   {"readiness", "size"},
                                                   {"session"},
                                                   {"journal"},
                                                   {"calibration"},
                                                   {"planner"},
                                                   {"report"}};

int floor_of(const std::string& room) {
  for (std::size_t i = 0; i < floors.size(); ++i) {
    if (std::count(floors[i].begin(), floors[i].end(), room) > 0) return static_cast<int>(i);
  }
  return -1;
}

bool may_use(const std::string& room, const std::string& used) {
  if (room == used) return true;
  if (room == "scheduling") return false;  // knows no paper: the standard library and itself
  if (used == "scheduling") return floor_of(room) >= floor_of("planner");
  return floor_of(used) < floor_of(room);
}

std::string room_of(const std::string& path) {
  const std::string head = "lib/dampline/";
  return path.substr(head.size(), path.find('/', head.size()) - head.size());
}

// The file an #include line names: "<string>" or "\"x.hpp\""; empty for any other line.
std::string included(const std::string& line) {
  std::istringstream words(line);
  std::string hash;
  std::string name;
  if (!(words >> hash >> name) || hash != "#include") return {};
  return name;
}

std::vector<SourceFile> library() { return files_below("lib", {".cpp", ".hpp"}); }

// The rooms that CMake lets a room use, and what those use.
std::map<std::string, std::set<std::string>> declared_uses() {
  std::map<std::string, std::set<std::string>> uses;
  for (const auto& line : lines_of(repository_file("lib/CMakeLists.txt"))) {
    if (!line.starts_with("dampline_room(")) continue;
    std::istringstream words(line.substr(14, line.find(')') - 14));
    std::string room;
    words >> room;
    auto& used = uses[room];
    used.insert(room);
    bool listing = false;
    for (std::string word; words >> word;) {
      if (word == "USES") {
        listing = true;
      } else if (word == "LINKS") {
        listing = false;
      } else if (listing) {
        used.insert(word);
        used.insert(uses[word].begin(), uses[word].end());
      }
    }
  }
  return uses;
}

TEST(Layers, everyRoomStandsOnAFloorAndInTheDevelopersGuide) {
  const auto guide = repository_file("DEVELOPERS.md");
  std::set<std::string> rooms;
  for (const auto& file : library()) rooms.insert(room_of(file.path));
  ASSERT_GT(rooms.size(), 3U);
  for (const auto& room : rooms) {
    EXPECT_GE(floor_of(room), 0) << room;
    EXPECT_TRUE(has_word(guide, room)) << room << " is not in DEVELOPERS.md";
  }
}

TEST(Layers, aRoomIncludesOnlyWhatLiesBelowIt) {
  int seen = 0;
  for (const auto& file : library()) {
    const auto lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const auto name = included(lines[i]);
      if (!name.starts_with("<dampline/")) {
        EXPECT_FALSE(name.starts_with('"')) << place(file, i) << " includes " << name
                                            << ": rooms are included as <dampline/room/thing.hpp>";
        continue;
      }
      ++seen;
      const auto used = name.substr(10, name.find('/', 10) - 10);
      EXPECT_TRUE(may_use(room_of(file.path), used)) << place(file, i) << " includes " << name;
    }
  }
  EXPECT_GT(seen, 10);
}

TEST(Layers, theBuildAllowsEachInclude) {
  const auto uses = declared_uses();
  for (const auto& [room, used] : uses) {
    for (const auto& other : used) {
      EXPECT_TRUE(may_use(room, other)) << "lib/CMakeLists.txt: " << room << " USES " << other;
    }
  }
  for (const auto& file : library()) {
    for (const auto& line : lines_of(file.text)) {
      const auto name = included(line);
      if (!name.starts_with("<dampline/")) continue;
      const auto room = room_of(file.path);
      ASSERT_TRUE(uses.contains(room)) << room << " is not in lib/CMakeLists.txt";
      EXPECT_TRUE(uses.at(room).contains(name.substr(10, name.find('/', 10) - 10)))
          << file.path << " includes " << name << ", not among the USES of " << room;
    }
  }
}

TEST(Layers, schedulingUsesTheStandardLibraryAlone) {
  for (const auto& file : library()) {
    if (room_of(file.path) != "scheduling") continue;
    for (const auto& line : lines_of(file.text)) {
      const auto name = included(line);
      if (name.empty() || name.starts_with("<dampline/scheduling/")) continue;
      EXPECT_EQ(name.find_first_of("/."), std::string::npos) << file.path << " includes " << name;
    }
  }
}

// Heavy or touchy libraries, and where each may be included.
TEST(Layers, heavyLibrariesStayBehindTheirDoors) {
  struct Door {
    std::string library;
    std::string prefix;
    std::vector<std::string> folders;  // source files only, never headers
  };
  const std::vector<Door> doors{
      {"toml++",
       "<toml++/",
       {"lib/dampline/session/", "lib/dampline/material/", "lib/dampline/method/",
        "lib/dampline/readiness/", "lib/dampline/planner/", "lib/dampline/journal/",
        "lib/dampline/calibration/"}},
      {"date", "<date/", {"lib/dampline/session/"}},
      {"Program_options", "<boost/program_options", {"cli/"}},
      {"Odeint", "<boost/numeric/odeint", {}},
      {"uBLAS", "<boost/numeric/ublas", {}},
      {"nlohmann", "<nlohmann/", {}}};
  auto files = library();
  const auto commands = files_below("cli", {".cpp", ".hpp"});
  files.insert(files.end(), commands.begin(), commands.end());
  for (const auto& file : files) {
    for (const auto& line : lines_of(file.text)) {
      const auto name = included(line);
      for (const auto& door : doors) {
        if (!name.starts_with(door.prefix)) continue;
        const bool inside =
            std::any_of(door.folders.begin(), door.folders.end(),
                        [&](const auto& folder) { return file.path.starts_with(folder); });
        EXPECT_TRUE(inside && file.path.ends_with(".cpp"))
            << file.path << " includes " << door.library;
      }
    }
  }
}

// Who opens files: loaders, each named here.
TEST(Layers, onlyLoadersReadFiles) {
  const std::vector<std::string> rooms_with_loaders{"material", "readiness",   "session",
                                                    "journal",  "calibration", "planner"};
  for (const auto& file : library()) {
    for (const auto& line : lines_of(file.text)) {
      const auto name = included(line);
      if (name != "<fstream>" && name != "<filesystem>") continue;
      const bool loader =
          std::count(rooms_with_loaders.begin(), rooms_with_loaders.end(), room_of(file.path)) > 0;
      EXPECT_TRUE(loader && file.path.ends_with(".cpp")) << file.path << " includes " << name;
    }
  }
}

TEST(Layers, theLibraryPrintsNothingAndReadsNoClockEnvironmentOrLocale) {
  const std::vector<std::string> forbidden_headers{
      "<iostream>", "<regex>",    "<format>", "<locale>", "<clocale>", "<ctime>",
      "<iomanip>",  "<unistd.h>", "<cstdio>", "<time.h>", "<stdio.h>"};
  const std::vector<std::string> forbidden_words{
      "cout", "cerr", "clog", "printf", "fprintf", "puts", "getenv", "setlocale", "isatty",
      "localtime", "gmtime", "mktime", "system_clock", "steady_clock", "high_resolution_clock",
      "random_device", "rand", "srand", "current_zone", "abort", "exit", "zone_of_system",
      // What these draw differs between standard libraries; the engines do not.
      "uniform_int_distribution", "uniform_real_distribution", "normal_distribution", "shuffle"};
  // The journal appends, locks and syncs; it is the one room that knows the operating system.
  const std::set<std::string> system_room{"journal"};
  // Offered to the commands, which alone may ask what zone the machine is set to.
  const auto is_zone_door = [](const std::string& path, const std::string& word) {
    return path.starts_with("lib/dampline/session/zone.") &&
           (word == "current_zone" || word == "zone_of_system");
  };
  for (const auto& file : library()) {
    const auto lines = lines_of(code_of(file.text));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const auto name = included(lines[i]);
      if (name == "<unistd.h>" && system_room.contains(room_of(file.path))) continue;
      EXPECT_EQ(std::count(forbidden_headers.begin(), forbidden_headers.end(), name), 0)
          << place(file, i) << " includes " << name;
      for (const auto& word : forbidden_words) {
        if (is_zone_door(file.path, word)) continue;
        EXPECT_FALSE(has_word(lines[i], word)) << place(file, i) << " uses " << word;
      }
    }
  }
}

TEST(Layers, bareNumbersBecomeQuantitiesOnlyInUnits) {
  auto files = library();
  const auto commands = files_below("cli", {".cpp", ".hpp"});
  files.insert(files.end(), commands.begin(), commands.end());
  int seen = 0;
  for (const auto& file : files) {
    const auto lines = lines_of(code_of(file.text));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (!has_word(lines[i], "from_value")) continue;
      ++seen;
      EXPECT_TRUE(file.path.starts_with("lib/dampline/units/")) << place(file, i);
    }
  }
  EXPECT_GT(seen, 0);
}

}  // namespace
}  // namespace dampline::tests
