#include <algorithm>
#include <stdexcept>
#include <utility>

#include <dampline/stack/semi_discrete.hpp>

namespace dampline::stack::kernel {

namespace {

constexpr double dry_heat = 1300;     // J/(kg K), cellulose, from memory
constexpr double wet_heat = 4186;     // J/(kg K), water
constexpr double vapour_gas = 461.5;  // J/(kg K)

void require_parts(const Stack& s) {
  const std::size_t layers = s.layers.size();
  if (layers == 0 || s.contacts.size() + 1 != layers || s.films.size() != layers + 1) {
    throw std::invalid_argument(
        "a stack needs layers, a contact between each pair and a film "
        "at every joint");
  }
  for (const stack::Layer& l : s.layers) {
    if (l.moisture.size() < 2 || l.share.size() != l.moisture.size()) {
      throw std::invalid_argument("a layer needs two cells or more, each with its share");
    }
  }
}

System shape_of(const Stack& s, const Calls& calls) {
  const auto layers = static_cast<int>(s.layers.size());
  std::vector<Layer> layer;
  std::vector<Joint> joint(s.films.size());
  int cells = 0;
  for (int l = 0; l < layers; ++l) {
    const auto k = static_cast<std::size_t>(l);
    const int end = cells + static_cast<int>(s.layers[k].moisture.size());
    layer.push_back({cells, end});
    joint[k].right = cells;
    joint[k].right_layer = l;
    joint[k + 1].left = end - 1;
    joint[k + 1].left_layer = l;
    joint[k].inner = l > 0;
    joint[k].film_on_left = s.films[k].on_left;
    cells = end;
  }
  joint.front().kind = s.left.kind;
  joint.back().kind = s.right.kind;
  System k(calls, std::move(layer), std::move(joint));
  k.fixed_temperature = s.fixed_temperature;
  return k;
}

void set_layer(System& k, const stack::Layer& layer, int l, int lane) {
  const material::Porous& m = *layer.material;
  const int w = k.lanes;
  const int at = l * w + lane;
  const double density = m.dry / m.thickness;
  k.liquid[at] = m.liquid;
  k.vapour[at] = m.vapour / density;
  k.per_moisture[at] = m.drying->per_moisture();
  k.saturation[at] = m.drying->saturation();
  k.drying[at] = layer.drying.weight;
  k.drying_water[at] = m.drying->water_knots();
  k.wetting_water[at] = m.wetting->water_knots();
  k.drying_reference[at] = m.drying->reference_knots();
  k.wetting_reference[at] = m.wetting->reference_knots();
  const std::size_t n = layer.moisture.size();
  const auto half = [&](std::size_t i) { return 0.5 * layer.share[i] * m.thickness; };
  for (std::size_t i = 0; i < n; ++i) {
    const int c = (k.layer[l].first + static_cast<int>(i)) * w + lane;
    k.inverse_dry[c] = 1 / (layer.share[i] * m.dry);
    k.share[c] = layer.share[i] * m.dry / k.dry[lane];
    k.cap[c] = k.saturation[at];
    k.conductance[c] = i + 1 < n ? density / (half(i) + half(i + 1)) : 0;
  }
  const double full = k.saturation[at];
  const double activity = m.wetting->activity(full).value;
  const double liquid = m.drying->liquid(full).value;
  const double reference = m.drying->reference(full).value;
  k.number_of(l, g_right)[lane] = density / half(0);
  k.number_of(l, activity_right)[lane] = activity;
  k.number_of(l, liquid_right)[lane] = liquid;
  k.number_of(l, reference_right)[lane] = reference;
  k.number_of(l + 1, g_left)[lane] = density / half(n - 1);
  k.number_of(l + 1, activity_left)[lane] = activity;
  k.number_of(l + 1, liquid_left)[lane] = liquid;
  k.number_of(l + 1, reference_left)[lane] = reference;
}

void set_air(System& k, const AirSide& air, int j, int lane) {
  k.number_of(j, air_kelvin)[lane] = air.air_kelvin;
  k.number_of(j, radiation)[lane] = air.radiation;
  k.number_of(j, vapour_pa)[lane] = air.vapour_pa;
  k.number_of(j, vapour_density)[lane] = air.vapour_pa / (vapour_gas * air.air_kelvin);
  k.number_of(j, per_two_total)[lane] = 1 / (2 * air.total_pa);
  k.number_of(j, per_depression)[lane] = 1 / air.depression;
  double* row = k.air_table + (j * k.lanes + lane) * air_rows;
  for (std::size_t i = 0; i < static_cast<std::size_t>(AirSide::intervals); ++i, row += 8) {
    std::copy_n(air.transfer.data() + 4 * i, 4, row);
    std::copy_n(air.convection.data() + 4 * i, 4, row + 4);
  }
}

void set_lane(System& k, const Stack& s, int lane) {
  double dry = 0;
  for (const stack::Layer& l : s.layers) dry += l.material->dry;
  k.dry[lane] = dry;
  k.heat_capacity[lane] = dry * dry_heat + water(s) * wet_heat;
  k.ambient[lane] = s.ambient_kelvin;
  k.back_heat[lane] = s.back_heat;
  for (int l = 0; l < k.layers; ++l) set_layer(k, s.layers[static_cast<std::size_t>(l)], l, lane);
  for (int j = 0; j < k.joints; ++j) {
    const auto at = static_cast<std::size_t>(j);
    if (k.joint[j].inner) k.number_of(j, contact)[lane] = s.contacts[at - 1];
    const bool there = s.films[at].water > gone;
    k.number_of(j, film_there)[lane] = there ? 1 : 0;
    k.joint[j].film = k.joint[j].film || there;
  }
  set_air(k, s.left.air, 0, lane);
  set_air(k, s.right.air, k.joints - 1, lane);

  double* y = k.y + lane;
  for (const stack::Layer& l : s.layers) {
    for (const double u : l.moisture) *std::exchange(y, y + k.lanes) = u;
  }
  for (const Film& f : s.films) *std::exchange(y, y + k.lanes) = f.water;
  *y = s.kelvin;
}

// The tables lanes will read, fetched in one go: of many sheets they come from memory, where a step
// would wait for every interval it first meets.
void fetch_tables(const System& k) {
  constexpr int a_line = 8;  // doubles
  for (int at = 0; at < k.layers * k.lanes; ++at) {
    const double* const table = k.drying[at] == 1 ? k.drying_water[at] : k.wetting_water[at];
    for (int i = 0; i < material::PorousTable::water_stride * material::PorousTable::intervals;
         i += a_line) {
      __builtin_prefetch(table + i);
    }
  }
}

}  // namespace

void refill(System& k, std::span<const Stack* const> stacks) {
  std::fill_n(k.y, k.size() * k.lanes, 0.0);
  for (int j = 0; j < k.joints; ++j) k.joint[j].film = false;
  for (int lane = 0; lane < k.lanes; ++lane) {
    set_lane(k, *stacks[std::min(static_cast<std::size_t>(lane), stacks.size() - 1)], lane);
  }
  if (k.lanes > 1) fetch_tables(k);
}

bool fits(const System& k, std::span<const Stack* const> stacks) {
  return std::all_of(stacks.begin(), stacks.end(), [&](const Stack* stack) {
    const Stack& s = *stack;
    require_parts(s);
    bool same = static_cast<int>(s.layers.size()) == k.layers && s.left.kind == k.joint[0].kind &&
                s.right.kind == k.joint[k.joints - 1].kind &&
                s.fixed_temperature == k.fixed_temperature;
    for (int l = 0; same && l < k.layers; ++l) {
      const auto at = static_cast<std::size_t>(l);
      const auto cells = static_cast<int>(s.layers[at].moisture.size());
      same = cells == k.layer[l].last - k.layer[l].first &&
             (l == 0 || s.films[at].on_left == k.joint[l].film_on_left);
    }
    return same;
  });
}

System system_of(std::span<const Stack* const> stacks, const Calls& calls) {
  if (stacks.empty()) throw std::invalid_argument("no stacks");
  require_parts(*stacks.front());
  System k = shape_of(*stacks.front(), calls);
  if (!fits(k, stacks)) throw std::invalid_argument("stacks side by side must be of one shape");
  refill(k, stacks);
  return k;
}

System system_of(std::span<const Stack> stacks, const Calls& calls) {
  std::vector<const Stack*> all;
  for (const Stack& s : stacks) all.push_back(&s);
  return system_of(all, calls);
}

System system_of(const Stack& stack) {
  const Stack* const one = &stack;
  return system_of(std::span(&one, 1), calls(1));
}

std::vector<double> state_of(const Stack& s, const System& k) {
  std::vector<double> y;
  y.reserve(static_cast<std::size_t>(k.size()));
  for (const stack::Layer& l : s.layers) y.insert(y.end(), l.moisture.begin(), l.moisture.end());
  for (const Film& f : s.films) y.push_back(f.water);
  y.push_back(s.kelvin);
  y.push_back(0);
  y.push_back(0);
  return y;
}

void put_back(Stack& s, const System& k, const double* y, int lane) {
  const double* at = y + lane;
  for (std::size_t l = 0; l < s.layers.size(); ++l) {
    for (double& u : s.layers[l].moisture) u = *std::exchange(at, at + k.lanes);
    s.layers[l].drying.weight = k.drying[static_cast<int>(l) * k.lanes + lane];
  }
  for (Film& f : s.films) f.water = *std::exchange(at, at + k.lanes);
  s.kelvin = *at;
}

}  // namespace dampline::stack::kernel
