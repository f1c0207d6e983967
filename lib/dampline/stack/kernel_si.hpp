#pragma once

#include <memory>
#include <vector>

#include <dampline/material/porous.hpp>
#include <dampline/stack/face.hpp>

/// The semi-discrete stack on plain SI doubles: flows, their derivatives, and the linear solves of
/// an implicit step, for one stack or for several of one shape side by side in `lanes`. Number k of
/// lane l stands at k * lanes + l. No allocation after `System` is built.
namespace dampline::stack::kernel {

class System;

/// What came of a step: the worst lane's.
struct Judged {
  double error;     ///< share of the error allowed; NaN when the step ran away
  double moisture;  ///< g/g beyond 0 or saturation, dew too
  double film;      ///< kg/m2 below zero
};

/// The loops as compiled for a processor and a number of lanes.
struct Calls {
  int lanes;
  const char* processor;
  void (*rates)(System&, const double* y, double* dy);
  /// The same, keeping the slopes for factor.
  void (*rates_and_slopes)(System&, const double* y, double* dy);
  /// Factors `diagonal` I - J, J at the y last given to rates_and_slopes.
  void (*factor)(System&, double diagonal);
  void (*solve)(const System&, double* r);
  /// A step of h seconds from y to next; the rate at y stands in System::rate.
  Judged (*step)(System&, const double* y, double h, double* next);
  /// Moves each layer's place between its branches by `times` what it took up or gave off from y to
  /// next.
  void (*scan)(System&, const double* y, const double* next, double times);
};
/// The widest the processor at hand has for at most so many lanes.
[[nodiscard]] const Calls& calls(int most_lanes);

struct Layer {
  int first = 0;  // cell
  int last = 0;   // one past
};
struct Joint {
  FaceKind kind = FaceKind::sealed;
  bool inner = false;
  int left = -1;  // cells; -1 is the world
  int right = -1;
  int left_layer = -1;
  int right_layer = -1;
  bool film_on_left = false;
  bool film = false;  // in some lane
};

// Numbers of a joint, a row of `lanes` each.
enum Number : int {
  g_left,  // half-cell conductances, kg/(m2 s) per g/g m2/s
  g_right,
  contact,
  film_there,     // 1 where a film is, else 0
  activity_left,  // of the layer on the left when full, and its other curves
  liquid_left,
  reference_left,
  activity_right,
  liquid_right,
  reference_right,
  air_kelvin,
  radiation,
  vapour_pa,
  vapour_density,
  per_two_total,
  per_depression,
  numbers
};
inline constexpr int air_rows = 8 * AirSide::intervals;
// A joint's exchange: rates of its left cell, right cell, film, what leaves the stack, and heat
// into it; and the slopes of each by the left moisture, right moisture, film and temperature.
inline constexpr int exchanged = 5;
inline constexpr int slopes_of_joint = 4 * exchanged;
// What eliminating a film leaves behind.
inline constexpr int film_rows = 7;

class System {
 public:
  System(const Calls& calls, std::vector<Layer> layers, std::vector<Joint> joints);
  System(System&&) = default;
  System& operator=(System&&) = default;

  // Layout of a state: cells, films, temperature, water out at the left, at the right.
  [[nodiscard]] int film_at(int j) const { return cells + j; }
  [[nodiscard]] int kelvin_at() const { return cells + joints; }
  [[nodiscard]] int out_at(int side) const { return cells + joints + 1 + side; }
  [[nodiscard]] int size() const { return cells + joints + 3; }
  /// dy/dt of one stack; y and dy hold size() doubles.
  void derivative(const double* y, double* dy);

  const Calls* run;
  int lanes;
  int cells;
  int joints;  // layers + 1
  int layers;
  const Layer* layer;
  Joint* joint;
  bool fixed_temperature = false;

  // By lane.
  double *heat_capacity, *ambient, *back_heat;  // J/(m2 K), K, W/(m2 K)
  double *allowed, *dry;                        // g/g; kg/m2 of fibre
  // By layer and lane.
  double *liquid, *vapour, *per_moisture, *saturation, *drying;
  // Knots of its material's curves.
  const double **drying_water, **wetting_water;
  const double **drying_reference, **wetting_reference;
  // By cell and lane.
  double *inverse_dry, *conductance, *cap, *share;  // conductance: cell i to i+1, 0 across layers
  // By joint, Number and lane.
  double* number;
  double* air_table;  // by joint and lane: rows of four of transfer, four of convection
  double* number_of(int j, Number n) { return number + (j * numbers + n) * lanes; }
  [[nodiscard]] const double* number_of(int j, Number n) const {
    return number + (j * numbers + n) * lanes;
  }

  // States.
  double *y, *next, *seen, *rate_after;
  // Work of the loops.
  double* rate;                             // dy/dt at the start of the step
  double* stage[6];                         // of the last step, in units of the solution
  double* rate_at;                          // at a stage, then the step's error
  double *mix, *phi, *slope, *bend, *flux;  // mix: by layer, of vapour and of liquid
  double* mix_rows;    // by layer and lane: of a wetting and of a drying row of the water tables
  double* slope_here;  // slope at the y of rates_and_slopes, which stages leave alone
  double *low, *mid, *up, *border;
  double *joint_slope, *film_row;
  double* kelvin_row;  // by the first cell, by the last, columns the same, pivot; then 1/diagonal
  bool bordered = false;
  const double* water;  // water_table

 private:
  std::unique_ptr<double[], void (*)(double*)> store_;
  std::vector<Layer> layers_;
  std::vector<Joint> joints_;
  std::vector<const double*> tables_;
};

inline constexpr double patchy = 1e-3;  ///< kg/m2: a film thinner than this leaves bare places
inline constexpr double gone = 1e-7;    ///< kg/m2: a film thinner than this joins the sheet
/// g/g over which a layer leaves one branch of its isotherm for the other, e-fold: `assumed`, such
/// that a loop turned at 95 % RH is widest at 80 %, the edge of what was seen in wood (50-80 %).
inline constexpr double scanning_moisture = 0.04;

}  // namespace dampline::stack::kernel
