#pragma once

#include <string>
#include <vector>

namespace dampline::validation {

/// A number line drawn along an axis: from the data's span to a span that ends on round numbers.
struct Axis {
  double low = 0;
  double high = 1;
  bool log = false;
  double from = 0;  ///< drawing units of `low`
  double to = 1;    ///< drawing units of `high`
  std::vector<double> ticks{};
  [[nodiscard]] double at(double value) const;
};
/// An axis over all finite `values` (positive ones when log). A linear axis whose values come near
/// zero starts there.
[[nodiscard]] Axis axis_over(const std::vector<double>& values, bool log, double from, double to);

/// The text of a drawing, element by element.
class Svg {
 public:
  Svg(double width, double height, const std::string& title, const std::string& description);
  void path(const std::string& d, const std::string& css);
  void text(double x, double y, const std::string& words, const std::string& css);
  /// A mark for a datum: circle, square, diamond or triangle by `shape`.
  void mark(double x, double y, int shape, const std::string& css);
  /// Turned a quarter to read upwards, for the vertical axis.
  void upright(double x, double y, const std::string& words, const std::string& css);
  [[nodiscard]] std::string take();

 private:
  std::string out_;
};

[[nodiscard]] std::string escaped(const std::string& words);
/// "M1 2", "L1 2" ... to a tenth of a drawing unit, so that noise does not move a digit.
[[nodiscard]] std::string move_to(double x, double y);
[[nodiscard]] std::string line_to(double x, double y);

}  // namespace dampline::validation
