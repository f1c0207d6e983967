#pragma once

#include <stdexcept>
#include <string>

namespace dampline::units {

/// A value outside the range over which a formula is known. Carries the whole sentence a person
/// needs: what it was, its value, and the range.
class OutOfRange : public std::runtime_error {
 public:
  /// `what` names the quantity ("water temperature"); value, low and high are in `unit`.
  OutOfRange(const std::string& what, double value, double low, double high,
             const std::string& unit);
};

}  // namespace dampline::units
