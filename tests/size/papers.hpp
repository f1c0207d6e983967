#pragma once

#include <algorithm>
#include <stdexcept>
#include <string>

#include <dampline/material/catalogue.hpp>

#include "support/reference_table.hpp"

namespace dampline::tests {

/// A stock of data/stocks.toml. Names carry commas, the reference tables semicolons.
inline const material::Stock& stock(std::string name) {
  std::replace(name.begin(), name.end(), ';', ',');
  static const auto read =
      material::read_catalogue(repository_file("data/stocks.toml"), "stocks.toml");
  const auto* found = material::find_stock(std::get<material::Catalogue>(read), name);
  if (found == nullptr) throw std::runtime_error("no stock " + name);
  return *found;
}

}  // namespace dampline::tests
