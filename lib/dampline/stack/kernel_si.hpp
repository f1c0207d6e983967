#pragma once

#include <vector>

#include <dampline/material/porous.hpp>
#include <dampline/stack/face.hpp>

/// The semi-discrete stack on plain SI doubles: flows, their derivatives, and the linear solves of
/// an implicit step. No allocation after `System` is built.
namespace dampline::stack::kernel {

struct LayerSi {
  int first;  // cell
  int last;   // one past
  const double* table;
  double per_moisture;
  double liquid;  // m2/s at 20 degC, saturated
  double vapour;  // m2/s over dry density: times vapour density gives g/g units of the integral
  double saturation;
};

// Flows at a joint, kg/(m2 s): film to the left and right cell, left cell to right cell, film and
// cell to the world; heat into the stack, W/m2.
struct Flow {
  double film_left;
  double film_right;
  double across;
  double film_out;
  double cell_out;
  double heat;
};

struct JointSi {
  FaceKind kind = FaceKind::sealed;
  bool inner = false;
  int left = -1;  // cells; -1 is the world
  int right = -1;
  const material::PorousTable* left_table = nullptr;
  const material::PorousTable* right_table = nullptr;
  double g_left = 0;  // half-cell conductances, kg/(m2 s) per g/g m2/s
  double g_right = 0;
  int left_layer = -1;
  int right_layer = -1;
  double contact = 0;
  bool film_on_left = false;
  bool film_active = false;
  AirSide air{};
};

// Derivatives of a joint's flows by its left moisture, right moisture, film and temperature.
struct JointSlope {
  Flow by_left;
  Flow by_right;
  Flow by_film;
  Flow by_kelvin;
};

class System {
 public:
  int cells = 0;
  int joints = 0;  // layers + 1
  std::vector<LayerSi> layer;
  std::vector<JointSi> joint;
  std::vector<double> inverse_dry;  // m2/kg of each cell
  std::vector<double> conductance;  // cell i to i+1, zero across layers
  std::vector<double> cap;          // saturation of each cell
  bool fixed_temperature = false;
  double heat_capacity = 1000;  // J/(m2 K)
  double ambient = 293.15;
  double back_heat = 0;

  // Layout of a state: cells, films, temperature, water out at the left, at the right.
  [[nodiscard]] int film_at(int j) const { return cells + j; }
  [[nodiscard]] int kelvin_at() const { return cells + joints; }
  [[nodiscard]] int out_left_at() const { return cells + joints + 1; }
  [[nodiscard]] int size() const { return cells + joints + 3; }

  void build_workspace();
  void derivative(const double* y, double* dy) { rates<false>(y, dy); }
  /// The same, keeping the slopes for factor().
  void derivative_here(const double* y, double* dy) { rates<true>(y, dy); }
  /// Factors I/(h gamma) - J at the y last given to derivative_here.
  void factor(const double* y, double diagonal);
  void solve(double* r) const;

 private:
  struct Integral {
    double value;
    double slope;
  };
  static Integral integral_of(const LayerSi& s, double liquid, double vapour, double u);
  [[nodiscard]] Flow flow(int j, double left, double right, double film, double kelvin) const;
  [[nodiscard]] Integral integral(int l, double u) const;
  void prepare(double kelvin);
  template <bool keep_slopes>
  void rates(const double* y, double* dy);
  void factor_tridiagonal();
  void solve_tridiagonal(double* r) const;
  void add_joint(int j, const double* y);
  void eliminate_film(int j, double diagonal);

  double liquid_now_ = 1;  // gamma/mu
  double vapour_now_ = 0;  // saturated vapour density, kg/m3
  double diagonal_ = 0;
  std::vector<double> phi_;  // liquid + vapour integral of each cell
  std::vector<double> cell_slope_;
  // Tridiagonal part: coefficients, then multipliers of an elimination from both ends that meets in
  // the middle: two chains that do not wait for each other.
  std::vector<double> low_, mid_, up_;
  std::vector<JointSlope> slope_;
  // Film rows: film = (r + sum of couplings)/pivot, and what eliminating it does to its neighbours.
  std::vector<double> film_pivot_, film_from_left_, film_from_right_, film_from_kelvin_;
  std::vector<double> left_from_film_, right_from_film_, kelvin_from_film_;
  // Temperature border.
  bool bordered_ = false;
  double kelvin_row_first_ = 0, kelvin_row_last_ = 0, kelvin_pivot_ = 1;
  double kelvin_col_first_ = 0, kelvin_col_last_ = 0;
  std::vector<double> border_;
};

inline System::Integral System::integral_of(const LayerSi& s, double liquid, double vapour,
                                            double u) {
  const double x = u * s.per_moisture;
  int i = static_cast<int>(x);
  constexpr int last = material::PorousTable::intervals - 1;
  i = i < 0 ? 0 : (i > last ? last : i);
  const double* c = s.table + static_cast<std::ptrdiff_t>(i) * material::PorousTable::stride;
  const double t = x - i;
  const double in = t < 0 ? 0 : (t > 1 ? 1 : t);
  const double c0 = vapour * c[0] + liquid * c[4];
  const double c1 = vapour * c[1] + liquid * c[5];
  const double c2 = vapour * c[2] + liquid * c[6];
  const double c3 = vapour * c[3] + liquid * c[7];
  const double slope = c1 + in * (2 * c2 + in * 3 * c3);
  return {c0 + in * (c1 + in * (c2 + in * c3)) + (t - in) * slope, slope * s.per_moisture};
}

inline System::Integral System::integral(int l, double u) const {
  const LayerSi& s = layer[static_cast<std::size_t>(l)];
  return integral_of(s, s.liquid * liquid_now_, s.vapour * vapour_now_, u);
}

/// Coverage of a face by a film: it breaks into patches below about 1 g/m2.
[[nodiscard]] double coverage(double film);

}  // namespace dampline::stack::kernel
