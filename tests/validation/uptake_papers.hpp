#pragma once

#include <stdexcept>
#include <string>

#include <dampline/material/catalogue.hpp>

#include "validation/papers.hpp"

/// Sheets that the checks of water in paper are run with.
namespace dampline::validation {

/// A sheet of a furnish, making, sizing and weight, the classes of data/stocks.toml filling in the
/// rest.
inline material::Stock paper_of(material::Sizing sizing, double grammage,
                                material::Furnish furnish = material::Furnish::cotton,
                                material::Making making = material::Making::mould) {
  const auto made = material::describe(catalogue(), {.grammage = units::grams_per_m2(grammage),
                                                     .furnish = furnish,
                                                     .making = making,
                                                     .sizing = sizing});
  if (const auto* d = std::get_if<material::Described>(&made)) return d->stock;
  throw std::runtime_error(std::get<material::DescriptionError>(made).what);
}

inline material::Sizing sizing_named(const std::string& word) {
  const auto sizing = material::sizing_from(word);
  if (!sizing) throw std::runtime_error("no sizing " + word);
  return *sizing;
}

}  // namespace dampline::validation
