#pragma once

#include <stdexcept>
#include <string>

#include <dampline/material/catalogue.hpp>
#include <dampline/method/run.hpp>

#include "support/reference_table.hpp"

namespace dampline::method::tests {

inline const material::Catalogue& catalogue() {
  static const auto read = material::read_catalogue(
      dampline::tests::repository_file("data/stocks.toml"), "data/stocks.toml");
  return std::get<material::Catalogue>(read);
}

/// A mould-made cotton sheet of a sizing and weight, the classes filling in the rest.
inline material::Stock cotton(material::Sizing sizing, double grammage) {
  const auto made = material::describe(catalogue(), {.grammage = units::grams_per_m2(grammage),
                                                     .furnish = material::Furnish::cotton,
                                                     .making = material::Making::mould,
                                                     .sizing = sizing});
  if (const auto* d = std::get_if<material::Described>(&made)) return d->stock;
  throw std::runtime_error(std::get<material::DescriptionError>(made).what);
}

inline Stage stage(Arrangement arrangement, units::Duration duration) {
  return left(arrangement, duration);
}

inline double mean(const History& h) { return sample_of(h.end).mean.parts_of_one(); }

}  // namespace dampline::method::tests
