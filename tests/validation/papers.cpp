#include "validation/papers.hpp"

#include <algorithm>
#include <stdexcept>

namespace dampline::validation {

const material::Catalogue& catalogue() {
  static const auto read =
      material::read_catalogue(tests::repository_file("data/stocks.toml"), "data/stocks.toml");
  return std::get<material::Catalogue>(read);
}

const material::Stock& stock(std::string name) {
  std::replace(name.begin(), name.end(), ';', ',');
  const auto* found = material::find_stock(catalogue(), name);
  if (found == nullptr) throw std::runtime_error("no stock called " + name);
  return *found;
}

material::Stock cotton(material::Sizing sizing, double grammage) {
  const auto made = material::describe(catalogue(), {.grammage = units::grams_per_m2(grammage),
                                                     .furnish = material::Furnish::cotton,
                                                     .making = material::Making::mould,
                                                     .sizing = sizing});
  if (const auto* d = std::get_if<material::Described>(&made)) return d->stock;
  throw std::runtime_error(std::get<material::DescriptionError>(made).what);
}

air::Climate climate(double celsius, double humidity, double pressure_pa,
                     air::AirMovement movement) {
  return {units::celsius(celsius), units::RelativeHumidity(humidity), units::pascal(pressure_pa),
          movement};
}

air::AirMovement movement(const std::string& word) {
  if (word == "still") return air::AirMovement::still;
  if (word == "ordinary") return air::AirMovement::ordinary;
  if (word == "fan") return air::AirMovement::fan;
  throw std::runtime_error("no such air: " + word);
}

Check check_on(const std::string& file, const std::string& id, const std::string& title,
               const std::string& room) {
  Check c;
  c.id = id;
  c.title = title;
  c.room = room;
  c.files = {file};
  c.allowed = tests::reference_table(file).allowed;
  return c;
}

Check check_between(const std::string& file, const std::string& id, const std::string& title,
                    const std::string& quantity, const std::string& unit) {
  Check c = check_on(file, id, title, "method");
  c.quantity = quantity;
  c.unit = unit;
  c.measure = Measure::difference;
  return c;
}

}  // namespace dampline::validation
