#pragma once

#include <string>

#include <dampline/material/catalogue.hpp>
#include <dampline/method/run.hpp>

#include "validation/check.hpp"

/// What the checks share: the stocks of data/stocks.toml, rooms, and a check that starts from a
/// table.
namespace dampline::validation {

[[nodiscard]] const material::Catalogue& catalogue();
/// A stock of the catalogue by its name, ";" for "," so that a table can hold it.
[[nodiscard]] const material::Stock& stock(std::string name);
/// A mould-made cotton sheet of a sizing and weight, the classes filling in the rest.
[[nodiscard]] material::Stock cotton(material::Sizing sizing, double grammage);

[[nodiscard]] air::Climate climate(double celsius, double humidity, double pressure_pa = 101325,
                                   air::AirMovement movement = air::AirMovement::still);
/// "still", "ordinary" or "fan"; throws for any other word.
[[nodiscard]] air::AirMovement movement(const std::string& word);

/// A check whose data and tolerance are those of a table in tests/reference.
[[nodiscard]] Check check_on(const std::string& file, const std::string& id,
                             const std::string& title, const std::string& room);
/// The same for moisture or the like, compared by difference.
[[nodiscard]] Check check_between(const std::string& file, const std::string& id,
                                  const std::string& title, const std::string& quantity,
                                  const std::string& unit);

}  // namespace dampline::validation
