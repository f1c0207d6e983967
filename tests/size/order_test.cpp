#include <algorithm>
#include <numeric>

#include <gtest/gtest.h>

#include <dampline/size/order.hpp>

namespace dampline::size {
namespace {

using units::centimetres;
using units::millimetres;

OrderedPlate plate(const std::string& name, double side_cm, double tolerance_mm, bool key = false) {
  return {name, centimetres(1.5 * side_cm), centimetres(side_cm), millimetres(tolerance_mm), key};
}

std::vector<std::string> names(const std::vector<OrderedPlate>& plates, const Order& o) {
  std::vector<std::string> out;
  for (const auto i : o.plates) out.push_back(plates[i].name);
  return out;
}

// Common practice, no published source: loose-fitting colours first, the key last.
TEST(BestOrder, putsTheKeyLastAndTheLooseFirst) {
  const std::vector<OrderedPlate> plates{plate("key", 20, 0.4, true), plate("red", 20, 0.4),
                                         plate("sky", 20, 1.0)};
  EXPECT_EQ(names(plates, best_order(plates)), (std::vector<std::string>{"sky", "red", "key"}));
}

TEST(BestOrder, keepsTheOrderGivenAmongEquals) {
  const std::vector<OrderedPlate> plates{plate("one", 20, 0.4), plate("two", 20, 0.4)};
  EXPECT_EQ(names(plates, best_order(plates)), (std::vector<std::string>{"one", "two"}));
}

// Every order tried, the key last in each.
TEST(BestOrder, isTheLeastOfAllOrders) {
  const std::vector<OrderedPlate> plates{plate("a", 30, 0.5), plate("b", 12, 0.4),
                                         plate("c", 20, 1.5), plate("d", 25, 0.3),
                                         plate("k", 30, 0.5, true)};
  const auto best = best_order(plates);
  std::vector<std::size_t> order{0, 1, 2, 3, 4};
  double least = 1e9;
  do {
    if (order.back() == 4) least = std::min(least, strain_on(plates, order));
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_DOUBLE_EQ(best.least, least);
  EXPECT_DOUBLE_EQ(strain_on(plates, best.plates), least);
  EXPECT_GT(strain_on(plates, {3, 0, 1, 2, 4}), least);
}

TEST(BestOrder, withoutAKeyIsTheLeastOfAllOrdersToo) {
  const std::vector<OrderedPlate> plates{plate("a", 30, 0.5), plate("b", 12, 0.4),
                                         plate("c", 20, 1.5)};
  std::vector<std::size_t> order{0, 1, 2};
  double least = 1e9;
  do {
    least = std::min(least, strain_on(plates, order));
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_DOUBLE_EQ(best_order(plates).least, least);
}

TEST(Key, isKnownByItsName) {
  EXPECT_TRUE(is_key("Key"));
  EXPECT_TRUE(is_key("line plate"));
  EXPECT_FALSE(is_key("monkey"));
  EXPECT_FALSE(is_key("tone"));
}

}  // namespace
}  // namespace dampline::size
