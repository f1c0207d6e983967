#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "data_files.hpp"
#include "input_file.hpp"
#include "output_file.hpp"

namespace dampline::cli {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;

class Files : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(testing::TempDir()) /
              (std::string("dampline_files_") +
               testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] std::string path(const std::string& name) const {
    return (folder_ / name).string();
  }
  static void put(const std::string& name, const std::string& text) { std::ofstream(name) << text; }
  static std::string get(const std::string& name) {
    std::ifstream in(name);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
  }

  template <class Act>
  static int status_of(Act act) {
    try {
      act();
    } catch (const Failure& e) {
      return e.status();
    }
    return 0;
  }

  fs::path folder_;
  std::istringstream in_{"typed"};
  std::ostringstream out_;
  Streams io_{.in = in_, .out = out_, .err = out_};
};

TEST_F(Files, outputReplacesAWholeFileAndKeepsItsMode) {
  put(path("plan.html"), "old");
  ::chmod(path("plan.html").c_str(), 0640);
  write_output(path("plan.html"), "new", io_);
  EXPECT_EQ(get(path("plan.html")), "new");
  EXPECT_EQ(fs::status(path("plan.html")).permissions(), fs::perms(0640));
  EXPECT_EQ(files(), 1U) << "a temporary file was left";
}

TEST_F(Files, outputFollowsALink) {
  put(path("real"), "old");
  fs::create_symlink("real", path("link"));
  write_output(path("link"), "new", io_);
  EXPECT_TRUE(fs::is_symlink(path("link")));
  EXPECT_EQ(get(path("real")), "new");
}

TEST_F(Files, outputNeverReplacesAnInput) {
  put(path("day.toml"), "precious");
  fs::create_hard_link(path("day.toml"), path("other-name"));
  const std::vector<std::string> inputs{path("day.toml")};
  EXPECT_EQ(status_of([&] { write_output(path("day.toml"), "x", io_, inputs); }), 73);
  EXPECT_EQ(status_of([&] { write_output(path("./day.toml"), "x", io_, inputs); }), 73);
  EXPECT_EQ(status_of([&] { write_output(path("other-name"), "x", io_, inputs); }), 73);
  EXPECT_EQ(get(path("day.toml")), "precious");
}

TEST_F(Files, outputThatCannotBeMadeSaysSo) {
  EXPECT_EQ(status_of([&] { write_output(path("no/such/plan"), "x", io_); }), 73);
  EXPECT_EQ(status_of([&] { write_output(folder_.string(), "x", io_); }), 73);
  EXPECT_EQ(status_of([&] { write_output("/dev/full", "x", io_); }), 74);
  put(path("there"), "old");
  EXPECT_EQ(status_of([&] { write_output(path("there"), "x", io_, {}, Existing::refuse); }), 73);
  EXPECT_EQ(get(path("there")), "old");
  EXPECT_EQ(files(), 1U);
}

TEST_F(Files, aDashIsAStream) {
  write_output("-", "bytes", io_);
  EXPECT_EQ(out_.str(), "bytes");
  EXPECT_EQ(read_input("-", io_), "typed");
}

TEST_F(Files, inputIsReadWholeUpToItsCap) {
  const std::string text(200'000, 'x');
  put(path("long"), text);
  EXPECT_EQ(read_input(path("long"), io_), text);
  EXPECT_EQ(status_of([&] { static_cast<void>(read_input(path("long"), io_, 100'000)); }), 65);
  EXPECT_EQ(status_of([&] { static_cast<void>(read_input(path("none"), io_)); }), 66);
  EXPECT_EQ(status_of([&] { static_cast<void>(read_input(folder_.string(), io_)); }), 66);
}

TEST(DataFiles, areLookedForInThisOrder) {
  const Surroundings s{.dampline_data_dir = "/mine",
                       .xdg_data_home = "/people/a/data",
                       .home = "/people/a",
                       .xdg_data_dirs = "/opt/share:relative:/usr/share",
                       .executable = "/opt/bin/dampline"};
  EXPECT_THAT(data_directories(s),
              ElementsAre("/mine", "/people/a/data/dampline", "/opt/share/dampline",
                          "/opt/share/dampline", "/usr/share/dampline"));
}

TEST(DataFiles, relativeFoldersOfTheEnvironmentAreIgnored) {
  const Surroundings s{.dampline_data_dir = "",
                       .xdg_data_home = "data",
                       .home = "/people/a",
                       .xdg_data_dirs = "",
                       .executable = "/usr/bin/dampline"};
  EXPECT_THAT(data_directories(s),
              ElementsAre("/people/a/.local/share/dampline", "/usr/share/dampline",
                          "/usr/local/share/dampline", "/usr/share/dampline"));
}

TEST(DataFiles, aNameNobodyHasIsMissingInput) {
  try {
    static_cast<void>(find_data("no-such-file.toml"));
    FAIL();
  } catch (const Failure& e) {
    EXPECT_EQ(e.status(), 66);
    EXPECT_NE(e.help().find("looked in /"), std::string::npos);
  }
}

}  // namespace
}  // namespace dampline::cli
