#include <algorithm>
#include <stdexcept>

#include <dampline/stack/semi_discrete.hpp>

namespace dampline::stack::kernel {

namespace {

constexpr double dry_heat = 1300;  // J/(kg K), cellulose, from memory
constexpr double wet_heat = 4186;  // J/(kg K), water

}  // namespace

System system_of(const Stack& s) {
  System k;
  const std::size_t layers = s.layers.size();
  if (layers == 0 || s.contacts.size() + 1 != layers || s.films.size() != layers + 1) {
    throw std::invalid_argument(
        "a stack needs layers, a contact between each pair and a film "
        "at every joint");
  }
  k.joints = static_cast<int>(layers) + 1;
  k.joint.resize(layers + 1);
  for (std::size_t l = 0; l < layers; ++l) {
    const Layer& layer = s.layers[l];
    const material::Porous& m = *layer.material;
    const std::size_t n = layer.moisture.size();
    if (n < 2 || layer.share.size() != n) {
      throw std::invalid_argument("a layer needs two cells or more, each with its share");
    }
    const material::PorousTable& table = m.table(layer.branch);
    const double density = m.dry / m.thickness;
    LayerSi si{k.cells,
               k.cells + static_cast<int>(n),
               table.coefficients(),
               table.per_moisture(),
               m.liquid,
               m.vapour / density,
               table.saturation()};
    const auto half = [&](std::size_t i) { return 0.5 * layer.share[i] * m.thickness; };
    for (std::size_t i = 0; i < n; ++i) {
      k.inverse_dry.push_back(1 / (layer.share[i] * m.dry));
      k.cap.push_back(table.saturation());
      k.conductance.push_back(i + 1 < n ? density / (half(i) + half(i + 1)) : 0);
    }
    JointSi& before = k.joint[l];
    before.right = si.first;
    before.right_table = &table;
    before.right_layer = static_cast<int>(l);
    before.g_right = density / half(0);
    JointSi& after = k.joint[l + 1];
    after.left = si.last - 1;
    after.left_table = &table;
    after.left_layer = static_cast<int>(l);
    after.g_left = density / half(n - 1);
    k.cells = si.last;
    k.layer.push_back(si);
  }
  for (std::size_t j = 1; j < layers; ++j) {
    k.joint[j].inner = true;
    k.joint[j].contact = s.contacts[j - 1];
    k.joint[j].film_on_left = s.films[j].on_left;
  }
  k.joint.front().kind = s.left.kind;
  k.joint.front().air = s.left.air;
  k.joint.back().kind = s.right.kind;
  k.joint.back().air = s.right.air;
  for (std::size_t j = 0; j < layers + 1; ++j) k.joint[j].film_active = s.films[j].water > gone;

  double dry = 0;
  for (const Layer& l : s.layers) dry += l.material->dry;
  k.heat_capacity = dry * dry_heat + water(s) * wet_heat;
  k.fixed_temperature = s.fixed_temperature;
  k.ambient = s.ambient_kelvin;
  k.back_heat = s.back_heat;
  k.build_workspace();
  return k;
}

std::vector<double> state_of(const Stack& s, const System& k) {
  std::vector<double> y;
  y.reserve(static_cast<std::size_t>(k.size()));
  for (const Layer& l : s.layers) y.insert(y.end(), l.moisture.begin(), l.moisture.end());
  for (const Film& f : s.films) y.push_back(f.water);
  y.push_back(s.kelvin);
  y.push_back(0);
  y.push_back(0);
  return y;
}

void put_back(Stack& s, const System& k, const double* y) {
  const double* at = y;
  for (Layer& l : s.layers) {
    std::copy(at, at + l.moisture.size(), l.moisture.begin());
    at += l.moisture.size();
  }
  for (Film& f : s.films) f.water = *at++;
  s.kelvin = y[k.kelvin_at()];
}

}  // namespace dampline::stack::kernel
