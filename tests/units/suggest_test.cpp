#include <gtest/gtest.h>

#include <dampline/units/suggest.hpp>

namespace dampline::units {
namespace {

TEST(Suggest, findsTheWordMeant) {
  const std::vector<std::string> words{"plan", "plates", "paper", "humidity"};
  EXPECT_EQ(nearest("paln", words), "plan");
  EXPECT_EQ(nearest("humdity", words), "humidity");
  EXPECT_EQ(nearest("Paper", words), "paper");
  EXPECT_EQ(nearest("xylophone", words), std::nullopt);
  EXPECT_EQ(nearest("", words), std::nullopt);
  EXPECT_EQ(nearest("B", std::vector<std::string>{"A"}), std::nullopt);
  EXPECT_EQ(edit_distance("ca", "abc"), 3U);  // restricted: no edit inside a swap
  EXPECT_EQ(edit_distance("grian", "grain"), 1U);
  EXPECT_EQ(listed(words), "\"plan\", \"plates\", \"paper\" or \"humidity\"");
}

}  // namespace
}  // namespace dampline::units
