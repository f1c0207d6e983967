#include <dampline/units/out_of_range.hpp>
#include <dampline/units/text.hpp>

namespace dampline::units {

OutOfRange::OutOfRange(const std::string& what, double value, double low, double high,
                       const std::string& unit)
    : std::runtime_error(what + " is " + shortest(value) + " " + unit + "; known from " +
                         shortest(low) + " to " + shortest(high) + " " + unit) {}

}  // namespace dampline::units
