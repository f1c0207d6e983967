#pragma once

#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "support/reference_table.hpp"

/// Outside checks: what the model says beside what somebody else says. Each check is plain data;
/// the page, its pictures and its baseline are written from it (docs/validation.md).
namespace dampline::validation {

inline constexpr double absent = std::numeric_limits<double>::quiet_NaN();

/// What the data are. Only `measured` is somebody's measurement of the thing itself.
enum class Basis {
  measured,  ///< a published measurement
  formula,   ///< a published formula, standard or handbook table
  memory,    ///< recalled, not compared with the print
  practice,  ///< what the trade says; no published source
  program,   ///< another program's results: tests the coding
  exact,     ///< an exact solution of the same equations: tests the solving, not the paper
  computed,  ///< a table computed for this project: tests the coding, not the paper
};

/// How a model value is held against its datum.
enum class Measure {
  relative,    ///< ln(model/data), shown in per cent
  difference,  ///< model - data, in the unit of the check
  factor,      ///< ln(model/data), shown as a factor; `allowed` is one too (1.5)
};

/// When the check is met. The bound is `allowed`, else twice the data's own uncertainty.
enum class Rule {
  each,    ///< every point within the bound
  rms,     ///< the root mean square of every series within the bound
  inside,  ///< every point between data_low and data_high, widened by `allowed`
};

enum class Picture {
  curve,   ///< data with error bars and the model's line over x
  rows,    ///< one labelled line a point: data and model along it
  parity,  ///< model over data, all points
};

struct Point {
  double x = 0;  ///< unused by Picture::rows
  double data = absent;
  double data_low = absent;  ///< error bar, or the range when the data are one
  double data_high = absent;
  double model = 0;
  std::string label{};
};

struct Series {
  std::string name;
  std::vector<Point> points;
  /// The model between the points; empty: the points' own model values are joined.
  std::vector<std::pair<double, double>> line{};
  bool joined = true;  ///< draw a line at all
};

struct Check {
  std::string id;     ///< of the section, the picture and the baseline: "wet-face-loss"
  std::string title;  ///< "Loss of a wet face"
  std::string room;
  std::string quantity;  ///< on the axis: "loss"
  std::string unit;      ///< "g/m2 h"; empty for pure numbers
  std::string x_label{};
  Basis basis = Basis::computed;
  std::vector<std::string> files{};  ///< tests/reference: source and tolerance stand in their heads
  double own = 0;       ///< standard uncertainty of the data, as `measure` counts; 0: not stated
  std::string own_why;  ///< what that rests on
  Measure measure = Measure::relative;
  Rule rule = Rule::each;
  double allowed = 0;  ///< 0: none stated
  int decimals = 2;    ///< of values in the table
  Picture picture = Picture::curve;
  bool log_x = false;
  bool log_y = false;
  std::vector<Series> series{};
  bool prediction = false;  ///< no datum yet: shown so that somebody can hold one to it
  std::string model{};      ///< what was run to get the model's values
  std::string notes{};      ///< in words, below the picture
  std::string miss{};       ///< what is missed and why; shown with a check that misses
};

/// Bias and scatter over all points that have a datum. `relative` and `factor` are in ln units.
struct Verdict {
  int n = 0;
  double bias = 0;
  double scatter = 0;  ///< standard deviation about the bias; 0 under three points
  double worst = 0;    ///< the largest deviation, with its sign
  int outside = 0;     ///< points (for Rule::rms: series) beyond the bound
  bool bound = false;  ///< there is a bound to meet
  [[nodiscard]] bool meets() const { return bound && outside == 0; }
};
[[nodiscard]] Verdict judge(const Check& check);

/// What is left of the scatter for the model when the data's own is taken off, never less than
/// that: no model can be shown to be better than what it is compared with.
[[nodiscard]] double model_scatter(const Check& check, const Verdict& verdict);

/// Deviation of one point as the check measures it; 0 for a point inside its range under
/// Rule::inside without `data`.
[[nodiscard]] double deviation(const Check& check, const Point& point);

[[nodiscard]] std::string words(Basis basis);

}  // namespace dampline::validation
