#pragma once

#include <functional>
#include <vector>

#include <dampline/material/porous.hpp>
#include <dampline/stack/face.hpp>
#include <dampline/units/quantity.hpp>

/// Porous layers between two faces, left alone for a time. Plain SI doubles, named with their unit:
/// these are the values the solver works on; rooms above hand out quantities.
namespace dampline::stack {

/// Where a layer stands between its two isotherms: 0 on the branch of taking up, 1 on that of
/// giving off. Between them its activity and reference moisture at a moisture are blended by this
/// weight.
struct Drying {
  double weight = 1;
  // NOLINTBEGIN(google-explicit-constructor): a weight is a number, a branch is one of its ends
  constexpr Drying(double share) : weight(share) {}
  constexpr Drying(material::Branch branch) : weight(branch == material::Branch::desorption) {}
  // NOLINTEND(google-explicit-constructor)
};

struct Layer {
  const material::Porous* material = nullptr;
  Drying drying = 1.0;           ///< advance() moves it with the layer's mean moisture
  std::vector<double> moisture;  ///< g/g, cell by cell
  std::vector<double> share;     ///< of the layer's dry fibre in each cell; adds up to 1
};

/// Cells that grow from `first` (share of the layer) at the left face, the right face or both.
enum class Graded { left, right, both };
[[nodiscard]] std::vector<double> graded_cells(int count, double first, Graded graded);

/// What lies between two layers, or between a layer and the world.
struct Film {
  double water = 0;      ///< kg/m2
  bool on_left = false;  ///< between layers: it wets the left one, and reaches the right one
                         ///< through the contact; else the other way round
};

struct Stack {
  std::vector<Layer> layers;
  std::vector<double> contacts;  ///< layers.size() - 1 conductances, kg/(m2 s)
  Face left;
  Face right;
  std::vector<Film> films;  ///< layers.size() + 1, from the left face to the right
  double kelvin = 293.15;
  bool fixed_temperature = false;
  double ambient_kelvin = 293.15;  ///< behind a sealed face
  double back_heat = 0;            ///< W/(m2 K) through sealed faces, from ambient
};

struct Tolerance {
  double moisture = 2e-5;  ///< g/g, error allowed in a step
  int most_steps = 200000;
};

/// What happened on the way.
enum class Change {
  film_gone,  ///< a film fell below 0.69 g/m2: half of the face it lay on is bare, its gloss gone
  layer_full  ///< every cell of a layer has come to 0.999 of saturation, for the first time
};
struct Event {
  Change change;
  int at = 0;          ///< which joint (as Stack::films) or layer
  double seconds = 0;  ///< since the stack was left alone, to a hundredth of the step it fell in
};

struct Outcome {
  double seconds = 0;  ///< how long the stack was left: all of it, or until the stop
  bool stopped = false;
  int steps = 0;
  int rejected = 0;
  double out_left = 0;  ///< kg/m2 that left through the left face
  double out_right = 0;
  double balance_error = 0;  ///< |water after + out - water before| over the water handled
  std::vector<Event>
      events{};  ///< in their order; advance() alone tells them, advance_lanes() none
};

/// Water in a layer, or in all layers and films, kg/m2.
[[nodiscard]] double water(const Layer& layer);
[[nodiscard]] double water(const Stack& stack);

/// Called at the times asked for, with the stack as it is then (moisture, films, temperature).
using Observer = std::function<void(double seconds, const Stack& stack)>;

/// Watched while the stack is left alone: a value that is above zero until the moment to stop.
using Watch = std::function<double(const Stack& stack)>;

/// Leaves the stack alone for `seconds`. The stack becomes what it is then.
///
/// 1-D finite volumes on dry fibre, conservative; Rosenbrock method of fourth order, L-stable, step
/// chosen by its embedded third-order result. Water closes to 1e-10, moisture stays within 0 and
/// saturation. `times` (rising) are the moments the observer sees. The run ends early where
/// `until`, looked at after every step, first falls to zero: the moment is found to a thousandth of
/// its step or 0.1 s. When it starts at zero or below, nothing happens.
/// Throws std::runtime_error when most_steps are not enough.
/// Source  docs/model.md, Stack and Numerics.
Outcome advance(Stack& stack, double seconds, const Tolerance& tolerance = {},
                const std::vector<double>& times = {}, const Observer& observer = {},
                const Watch& until = {});

}  // namespace dampline::stack
