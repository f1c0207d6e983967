#include <algorithm>
#include <new>
#include <span>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/kernels.hpp>
#include <dampline/stack/water_table.hpp>

namespace dampline::stack::kernel {

namespace {

constexpr std::size_t widest = 8;
constexpr std::align_val_t line{64};

// Every array starts on a line of its own, with zeros before and after it: the loops read one lane
// before the first cell and up to a vector past the last.
class Sizes {
 public:
  std::size_t add(std::size_t doubles) {
    const std::size_t at = total_ + widest;
    total_ = at + (doubles + 2 * widest - 1) / widest * widest;
    return at;
  }
  [[nodiscard]] std::size_t total() const { return total_ + widest; }

 private:
  std::size_t total_ = 0;
};

void release(double* p) { ::operator delete[](p, line); }

}  // namespace

System::System(const Calls& calls, std::vector<Layer> all_layers, std::vector<Joint> all_joints)
    : run(&calls),
      lanes(calls.lanes),
      cells(all_layers.empty() ? 0 : all_layers.back().last),
      joints(static_cast<int>(all_joints.size())),
      layers(static_cast<int>(all_layers.size())),
      water(water_table().coefficients()),
      store_(nullptr, release),
      layers_(std::move(all_layers)),
      joints_(std::move(all_joints)),
      tables_(4 * layers_.size() * static_cast<std::size_t>(lanes)) {
  layer = layers_.data();
  joint = joints_.data();
  const auto w = static_cast<std::size_t>(lanes);
  const auto l = layers_.size() * w;
  const auto c = static_cast<std::size_t>(cells) * w;
  const auto j = joints_.size() * w;
  const auto n = static_cast<std::size_t>(size()) * w;
  drying_water = tables_.data();
  wetting_water = tables_.data() + l;
  drying_reference = tables_.data() + 2 * l;
  wetting_reference = tables_.data() + 3 * l;
  struct Wanted {
    double** array;
    std::size_t doubles;
  };
  const Wanted wanted[] = {{&heat_capacity, w},
                           {&ambient, w},
                           {&back_heat, w},
                           {&allowed, w},
                           {&dry, w},
                           {&liquid, l},
                           {&vapour, l},
                           {&per_moisture, l},
                           {&saturation, l},
                           {&drying, l},
                           {&inverse_dry, c},
                           {&conductance, c},
                           {&cap, c},
                           {&share, c},
                           {&number, numbers * j},
                           {&air_table, air_rows * j},
                           {&y, n},
                           {&next, n},
                           {&seen, n},
                           {&rate_after, n},
                           {&rate, n},
                           {&stage[0], n},
                           {&stage[1], n},
                           {&stage[2], n},
                           {&stage[3], n},
                           {&stage[4], n},
                           {&stage[5], n},
                           {&rate_at, n},
                           {&mix, 2 * l},
                           {&mix_rows, 16 * l},
                           {&phi, c},
                           {&slope, c},
                           {&bend, c},
                           {&slope_here, c},
                           {&flux, c},
                           {&low, c},
                           {&mid, c},
                           {&up, c},
                           {&border, c},
                           {&joint_slope, slopes_of_joint * j},
                           {&film_row, film_rows * j},
                           {&kelvin_row, 6 * w}};
  Sizes sizes;
  for (const Wanted& v : wanted) (void)sizes.add(v.doubles);
  store_.reset(new (line) double[sizes.total()]());
  Sizes again;
  for (const Wanted& v : wanted) *v.array = store_.get() + again.add(v.doubles);
}

void System::derivative(const double* from, double* dy) {
  const auto n = static_cast<std::size_t>(size() * lanes);
  std::copy(from, from + n, seen);
  run->rates(*this, seen, rate_after);
  std::copy(rate_after, rate_after + n, dy);
}

std::span<const Calls* const> available() {
  static const std::vector<const Calls*> all = [] {
    std::vector<const Calls*> found{plain(), plain() + 1};
    const auto add = [&](const Calls* both, bool runs) {
      if (both != nullptr && runs) found.insert(found.end(), {both, both + 1});
    };
#if defined(__x86_64__) && defined(__GNUC__)
    __builtin_cpu_init();
    add(wide_256(), __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma"));
    add(wide_512(), __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                        __builtin_cpu_supports("avx512vl"));
#else
    (void)add;
#endif
    return found;
  }();
  return all;
}

const Calls& calls(int most_lanes) {
  const Calls* widest = plain();
  for (const Calls* c : available()) {
    const bool fits = most_lanes < 2 ? c->lanes == 1 : c->lanes <= most_lanes;
    if (fits && c->lanes >= widest->lanes) widest = c;
  }
  return *widest;
}

}  // namespace dampline::stack::kernel
