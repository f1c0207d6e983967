#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/read.hpp>
#include <dampline/units/text.hpp>

#include "support/source_tree.hpp"

namespace dampline::session {
namespace {

std::string file(const std::string& name) {
  std::ifstream in(tests::in_source_tree("data/sessions/" + name));
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_FALSE(text.str().empty()) << name;
  return text.str();
}

Session read_well(const std::string& name) {
  const auto found = read(file(name), name);
  if (const auto* errors = std::get_if<InputErrors>(&found)) {
    for (const auto& e : *errors) ADD_FAILURE() << rendered(e);
    return {};
  }
  return std::get<Session>(found);
}

TEST(DemoSession, everyKeyArrivesInItsPlace) {
  const auto s = read_well("salt-marsh.toml");
  using std::chrono::minutes;
  EXPECT_EQ(s.title, "Salt marsh, two plates");
  using namespace std::chrono_literals;
  EXPECT_EQ(s.day.date, 2026y / 3 / 14);
  EXPECT_EQ(s.day.from, minutes(9 * 60 + 30));
  EXPECT_EQ(s.day.until, minutes(17 * 60 + 30));
  EXPECT_EQ(s.day.zone, "Europe/Lisbon");
  ASSERT_EQ(s.day.breaks.size(), 1U);
  EXPECT_EQ(s.day.breaks[0].at, minutes(13 * 60));
  EXPECT_EQ(units::text(s.day.breaks[0].length), "40 min");
  EXPECT_EQ(units::text(s.studio.temperature), "17 degC");
  EXPECT_EQ(units::text(s.studio.humidity), "52 %");
  EXPECT_EQ(s.studio.air, AirMovement::still);
  EXPECT_EQ(units::text(s.studio.altitude), "90 m");
  ASSERT_EQ(s.people.size(), 1U);
  EXPECT_EQ(s.people[0].name, "A");
  EXPECT_TRUE(s.people[0].inks && s.people[0].handles_paper);
  ASSERT_EQ(s.equipment.presses.size(), 1U);
  EXPECT_EQ(s.equipment.presses[0].name, "table press");
  EXPECT_EQ(units::text(s.equipment.presses[0].bed->height), "90 cm");
  ASSERT_TRUE(s.equipment.tub);
  EXPECT_EQ(s.equipment.tub->sheets, 8);
  EXPECT_EQ(units::text(s.equipment.tub->water), "18 degC");
  EXPECT_EQ(s.equipment.blotters, 20);
  EXPECT_TRUE(s.equipment.hot_plate);
  EXPECT_EQ(s.equipment.drying, DryingMethod::boards);
  EXPECT_EQ(s.equipment.drying_places, 16);
  EXPECT_EQ(s.paper.stock, "mould-made cotton, internal size, 300 g/m2");
  EXPECT_EQ(units::text(s.paper.sheet.width), "38 cm");
  EXPECT_EQ(s.paper.grain, Grain::along_long_side);
  EXPECT_EQ(s.paper.sheets, 14);
  EXPECT_EQ(s.damping.method, "soak");
  EXPECT_EQ(s.damping.hold, Hold::covered);
  ASSERT_EQ(s.plates.size(), 2U);
  EXPECT_EQ(s.plates[0].name, "tone");
  EXPECT_EQ(s.plates[0].process, "aquatint");
  EXPECT_TRUE(s.plates[0].times.empty());
  EXPECT_EQ(s.plates[1].ink, "oil");
  EXPECT_EQ(units::text(s.plates[1].times.at("wipe")), "14 min");
  EXPECT_EQ(s.edition.prints, 10);
  EXPECT_EQ(s.edition.proofs, 2);
  EXPECT_THAT(s.edition.order, testing::ElementsAre("tone", "key"));
  EXPECT_EQ(s.edition.between, Between::held);
  EXPECT_FALSE(s.edition.sheet_each);
  EXPECT_EQ(units::text(s.registering.tolerance), "0.4 mm");
  EXPECT_EQ(s.registering.locate, Locate::corner);
  EXPECT_EQ(units::text(s.registering.placing), "0.2 mm");
  EXPECT_TRUE(s.defaults_used.empty());
  EXPECT_TRUE(s.warnings.empty());
}

TEST(DemoSession, placesPointIntoTheFile) {
  const auto s = read_well("salt-marsh.toml");
  const auto line = [&](Place p) {
    std::istringstream in(s.text);
    std::string found;
    for (int i = 0; i < p.line; ++i) std::getline(in, found);
    return found;
  };
  EXPECT_EQ(line(s.paper.where), "[paper]");
  EXPECT_EQ(line(s.paper.where_stock).substr(0, 5), "stock");
  EXPECT_EQ(line(s.plates[1].where), "name = \"key\"");
  EXPECT_EQ(line(s.plates[1].where_process), "process = \"etching\"");
  EXPECT_EQ(line(s.plates[1].where_times.at("wipe")), "wipe = \"14 min\"");
  EXPECT_EQ(line(s.equipment.presses[0].where).substr(0, 7), "presses");
}

}  // namespace
}  // namespace dampline::session
