#pragma once

#include <string>
#include <vector>

#include <dampline/units/quantity.hpp>

/// In which order plates go on a sheet, so that what it changes between them hurts least.
namespace dampline::size {

struct OrderedPlate {
  std::string name;
  units::Length long_side;
  units::Length short_side;
  units::Length tolerance;  ///< its own, where it may be looser than the rest
  bool key = false;         ///< the drawing that everything must meet
};

struct Order {
  std::vector<std::size_t> plates;  ///< indices, in printing order
  double least = 0;    ///< worst corner over tolerance when the sheet changes by one part a pull
  std::string reason;  ///< one sentence
};

/// The key last, and before it the plates by how far a change of the sheet would put them out: the
/// one that stands it best first, for it is printed longest before the key. Without a key, the
/// plate that stands it least is last. Ties keep the order given.
///
/// A sheet that changes steadily has plate i out against the last by its diagonal times the pulls
/// between them; the order gives the smallest of the worst over all orders (`common practice, no
/// published source` for the key last; the rest follows, tests/size/order_test.cpp).
[[nodiscard]] Order best_order(const std::vector<OrderedPlate>& plates);

/// The worst corner over its tolerance in some order, for a change of one part a pull.
[[nodiscard]] double strain_on(const std::vector<OrderedPlate>& plates,
                               const std::vector<std::size_t>& order);

/// Whether a plate's name or process makes it a key: a name with "key", "line" or "outline".
[[nodiscard]] bool is_key(const std::string& name);

}  // namespace dampline::size
