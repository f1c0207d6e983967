#include <map>

#include <dampline/air/evaporation.hpp>
#include <dampline/units/text.hpp>

#include "validation/checks.hpp"
#include "validation/papers.hpp"

// Ratios of losses: firmer than the losses themselves, because what is not known of a room's air
// stands above and below the line.
namespace dampline::validation {
namespace {

double loss(const std::string& mounting, const std::string& air, const tests::ReferenceRow& row) {
  auto how = air::Mounting::hung;
  if (mounting == "rack") how = air::Mounting::rack;
  if (mounting == "table") how = air::Mounting::table;
  const auto room = climate(row.cell[2], row.cell[3], row.cell[4], movement(air));
  return units::in_si(
      air::evaporation(room, how, units::centimetres(56), units::centimetres(76)).loss);
}

struct Pair {
  const char* label;
  const char* mounting;
  const char* air;
  const char* over_mounting;
  const char* over_air;
};

Check ratios() {
  Check c = check_on("wet_sheet_climates.csv", "loss-ratios",
                     "A fan over still air, two faces over one", "air");
  c.quantity = "ratio of the losses";
  c.allowed = 0.20;  // what the program claims for the ratio of two rates
  c.picture = Picture::rows;
  const auto table = tests::reference_table(c.files[0]);
  std::map<std::string, const tests::ReferenceRow*> rows;
  const auto key = [](const std::string& mounting, const std::string& air,
                      const tests::ReferenceRow& row) {
    return mounting + air + row.field[2] + row.field[3];
  };
  for (const auto& row : table) rows[key(row.field[0], row.field[1], row)] = &row;
  constexpr Pair pairs[] = {{"hung, fan over still", "hung", "fan", "hung", "still"},
                            {"table, fan over still", "table", "fan", "table", "still"},
                            {"rack over table, ordinary", "rack", "ordinary", "table", "ordinary"}};
  for (const auto& pair : pairs) {
    const auto word = [](const std::string& air) { return air == "fan" ? "fan 1" : air; };
    Series s{pair.label, {}};
    for (const auto& row : table) {
      if (row.field[0] != pair.mounting || row.field[1] != word(pair.air)) continue;
      const auto* under = rows.at(key(pair.over_mounting, word(pair.over_air), row));
      s.points.push_back(
          {.data = row.cell[5] / under->cell[5],
           .model =
               loss(pair.mounting, pair.air, row) / loss(pair.over_mounting, pair.over_air, row),
           .label = row.field[2] + " degC " + units::shortest(100 * row.cell[3]) + " %"});
    }
    c.series.push_back(s);
  }
  c.model = "air::evaporation";
  c.notes =
      "Published measurements of the same sheet hung and laid, or in still and in moved air, "
      "were not found; the table is a separate program's.";
  return c;
}

}  // namespace

std::vector<Check> ratio_checks() { return {ratios()}; }

}  // namespace dampline::validation
