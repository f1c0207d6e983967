#include <algorithm>
#include <cmath>
#include <iostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <dampline/units/text.hpp>

#include "papers.hpp"

// Every way of damping and drying, on every paper it is for, with the usual cells and steps and
// with finer ones. Run by itself it prints the table of docs/convergence.md.
namespace dampline::method {
namespace {

using material::Kind;
using material::Sizing;
using units::minutes;

const air::Climate studio;
constexpr double usual = RunOptions{}.tolerance;
constexpr double finer = usual / 10;

struct Case {
  std::string what;
  std::vector<Stage> stages;
  double wet = 0;  // share of saturation the sheet starts with; 0: as it lay in the room
};

std::vector<Case> ways_of(const material::Stock& stock) {
  std::vector<Case> ways;
  const bool light = stock.grammage.value < units::grams_per_m2(70);
  if (stock.sizing != Sizing::waterleaf && !light) {
    const double soak = stock.sizing == Sizing::soft       ? 8
                        : stock.sizing == Sizing::internal ? 30
                                                           : 60;
    ways.push_back({"soak, blot, rest", soak_blot_rest(minutes(soak), 2, minutes(30))});
    ways.push_back({"sponge", sponge_rest(units::grams_per_m2(100), minutes(60))});
  }
  // What takes a dry sheet to about 0.55 g/g.
  const double film = 0.47 * units::in_grams_per_m2(stock.grammage.value);
  ways.push_back({"mist", mist_rest(units::grams_per_m2(film), minutes(60))});
  ways.push_back({"damp pack of 6", damp_pack(units::Moisture(0.6), 5, units::hours(2))});
  const auto dried = [&](const char* what, Arrangement a, double hours) {
    ways.push_back({what, {left(a, units::hours(hours))}, 0.8});
  };
  dried("bench", Arrangement::bench, 1);
  dried("hang", Arrangement::hang, 1);
  dried("boards", Arrangement::boards, 4);
  return ways;
}

// Each cell in `parts` of equal fibre.
State divided(State s, int parts) {
  std::vector<double> moisture;
  std::vector<double> share;
  for (std::size_t i = 0; i < s.share.size(); ++i) {
    for (int p = 0; p < parts; ++p) {
      moisture.push_back(s.moisture[i]);
      share.push_back(s.share[i] / parts);
    }
  }
  s.moisture = moisture;
  s.share = share;
  return s;
}

// Means at the ends of the stages.
std::vector<double> means(const Sheet& sheet, const Case& c, int parts, double tolerance) {
  const State start = c.wet > 0 ? evenly(sheet, units::Moisture(c.wet * sheet.porous->saturation))
                                : conditioned(sheet, studio);
  RunOptions o;
  o.sample_every = units::seconds(0);
  o.tolerance = tolerance;
  const History h = run(sheet, divided(start, parts), c.stages, studio, o);
  std::vector<double> at_ends;
  for (const StageEnd& e : h.ends) at_ends.push_back(sample_of(e.state).mean.parts_of_one());
  return at_ends;
}

std::string row(std::initializer_list<std::string> cells) {
  std::string line = "|";
  for (const std::string& c : cells) line += ' ' + c + " |";
  return line + '\n';
}

std::string ten_thousandths(double change) { return units::fixed(1e4 * change, 2); }

class Convergence : public testing::TestWithParam<std::size_t> {};

constexpr double allowed = 1e-3;

// Half the cells' width and a tenth of the step error change no mean at the end of a stage by
// 0.001.
TEST_P(Convergence, finerCellsAndStepsChangeNoMeanByAThousandth) {
  const material::Stock& stock = tests::catalogue().stocks[GetParam()];
  if (stock.kind != Kind::paper) return;
  const Sheet sheet = sheet_of(stock);
  for (const Case& c : ways_of(stock)) {
    const std::string name = stock.name + ": " + c.what;
    const auto as_usual = means(sheet, c, 1, usual);
    const auto steps = means(sheet, c, 1, finer);
    const auto cells = means(sheet, c, 2, finer);
    const auto cells4 = means(sheet, c, 4, finer);
    std::size_t worst = 0;
    for (std::size_t i = 0; i < as_usual.size(); ++i) {
      if (std::abs(as_usual[i] - cells[i]) > std::abs(as_usual[worst] - cells[worst])) worst = i;
      EXPECT_NEAR(cells[i], cells4[i], allowed) << name << ", " << c.stages[i].name;
    }
    const double changed = std::abs(as_usual[worst] - cells[worst]);
    EXPECT_LT(changed, allowed) << name << ", " << c.stages[worst].name;
    const double first = cells[worst] - steps[worst];
    const double second = cells4[worst] - cells[worst];
    if (std::max({std::abs(steps[worst] - as_usual[worst]), std::abs(first), std::abs(second)}) <
        1e-4) {
      continue;
    }
    const bool plain = std::abs(second) > 2e-6 && first / second > 1;
    std::cout << row({stock.name, c.what, c.stages[worst].name, units::fixed(as_usual[worst], 4),
                      ten_thousandths(steps[worst] - as_usual[worst]), ten_thousandths(first),
                      ten_thousandths(second),
                      plain ? units::fixed(std::log2(first / second), 1) : "-"});
  }
}

INSTANTIATE_TEST_SUITE_P(Stock, Convergence,
                         testing::Range<std::size_t>(0, tests::catalogue().stocks.size()));

}  // namespace
}  // namespace dampline::method
