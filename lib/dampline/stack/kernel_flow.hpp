#pragma once

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/pack.hpp>

// What flows at a joint: between layers, out of a film, to the tub and to the air; with its slopes
// when an implicit step asks for them. Internal linkage: see pack.hpp.
namespace dampline::stack::kernel {
namespace {  // NOLINT(google-build-namespaces)

constexpr double vapour_gas = 461.5;  // J/(kg K)
constexpr double bridge = 4;          // contact through a film over dry contact: `assumed`
constexpr double reference_kelvin = 296.15;
constexpr double table_end = 1.25;  // of (dT/depression)^1/4, as face.cpp tables it

/// Where a moisture lies in the tables of its material (material/porous): the interval, how far
/// into it, and its width in narrow ones.
template <class V>
struct Spot {
  typename Whole<V>::Type interval;
  V within, width;
};
template <class V>
[[maybe_unused]] inline Spot<V> spot(V u, V narrow_per) {
  using T = material::PorousTable;
  constexpr double wide = T::fine - T::dry_end - T::wet_end;
  constexpr double middle = 0.5 * (T::dry_end + T::brim - 1);
  const V narrow = u * narrow_per;
  const V between = smaller(larger(narrow - T::dry_end, V{}), all<V>(wide));
  const Place<V> p = place(narrow - between * (1 - 1.0 / T::coarse), T::intervals - 1);
  const auto inside = magnitude(p.whole - middle) < all<V>(middle - T::dry_end + 0.5);
  return {p.interval, p.within, inside ? all<V>(T::coarse) : all<V>(1.0)};
}
template <class V>
[[maybe_unused]] inline V per_width(const Spot<V>& at) {
  constexpr double drop = 1.0 / material::PorousTable::coarse;
  return (1 + drop) - drop * at.width;  // 1/width of the two widths there are
}

/// Rates into the left cell, the right cell and the film, out of the stack, and heat into it.
template <class V>
struct Exchange {
  V left, right, film, out, heat;
};
static_assert(sizeof(Exchange<double>) == exchanged * sizeof(double));

/// An exchange with its slopes by the left and right moisture, the film and the temperature.
template <class V>
struct Sloping {
  Exchange<V> value, by_left, by_right, by_film, by_kelvin;
};

/// Water at the stack's temperature.
template <class V>
struct Warmth {
  V kelvin, saturation_pa, saturation_slope, liquid;
};

template <class V>
struct Joints {
  static constexpr int lanes = count<V>;

  static Warmth<V> warmth(const System& s, V kelvin) {
    constexpr double coldest = 240;
    const auto p = place(kelvin - coldest, 109);
    Rows<V> pressure;
    Rows<V> liquid;
    for (int e = 0; e < lanes; ++e) {
      pressure[slot<V>(e)] = load<Four>(s.water + 8 * p.at(e));
      liquid[slot<V>(e)] = load<Four>(s.water + 8 * p.at(e) + 4);
    }
    const Curve<V> c = curve(turned(pressure), p.within, all<V>(1.0));
    return {kelvin, c.value, c.slope, curve(turned(liquid), p.within, all<V>(1.0)).value};
  }

  // A curve of a layer's material between its branches: value and slope of a knot, `stride` from
  // knot to knot.
  static Curve<V> of_material(const System& s, int layer, const double* const* drying,
                              const double* const* wetting, int stride, V u) {
    const V per = load<V>(s.per_moisture + layer * lanes);
    const auto at = spot(u, per);
    long long interval[count<V>];
    __builtin_memcpy(interval, &at.interval, sizeof interval);
    const auto row = [&](const double* knots, int e) {
      const double* from = knots + stride * interval[e];
      return __builtin_shufflevector(load<Two>(from), load<Two>(from + stride), 0, 1, 2, 3);
    };
    Rows<V> rows;
    for (int e = 0; e < lanes; ++e) {
      const int k = layer * lanes + e;
      const double weight = s.drying[k];
      Four& here = rows[slot<V>(e)];
      here = row(weight == 1 ? drying[k] : wetting[k], e);
      if (weight != 0 && weight != 1) here += (row(drying[k], e) - here) * weight;
    }
    return curve(between_knots(turned(rows), at.width), at.within, per * per_width(at));
  }
  static Curve<V> activity_of(const System& s, int layer, V u) {
    return of_material(s, layer, s.drying_water, s.wetting_water,
                       material::PorousTable::water_stride, u);
  }
  static Curve<V> reference_of(const System& s, int layer, V u) {
    return of_material(s, layer, s.drying_reference, s.wetting_reference, 2, u);
  }

  static Curve<V> in_cell(const System& s, int cell) {
    const int k = cell * lanes;
    return {load<V>(s.phi + k), load<V>(s.slope + k), load<V>(s.bend + k)};
  }

  // Integral of D of a full layer, from its curves there.
  static V when_full(const System& s, int layer, V activity, V liquid) {
    const double* mix = s.mix + 2 * layer * lanes;
    return load<V>(mix) * activity + load<V>(mix + lanes) * liquid;
  }

  struct Cover {
    V share, slope;
  };
  static Cover cover(const System& s, int j, V film) {
    if (!s.joint[j].film) return Cover{V{}, V{}};
    const V there = load<V>(s.number_of(j, film_there));
    const V x = film * (1 / patchy);
    const V bare = exponential(-larger(x, V{}));
    return Cover{there * (x > V{} ? 1 - bare : x), there * bare * (1 / patchy)};
  }

  // Between two layers. With w the reference moistures and r the half cells' resistances,
  // J = h (w_left - w_right) / (1 + h (r_left + r_right)).
  template <bool slopes>
  static void between_layers(const System& s, int j, V left, V right, V film, Sloping<V>& x) {
    const Joint& q = s.joint[j];
    const Curve<V> il = in_cell(s, q.left);
    const Curve<V> ir = in_cell(s, q.right);
    const Curve<V> wl = reference_of(s, q.left_layer, left);
    const Curve<V> wr = reference_of(s, q.right_layer, right);
    const V gl = load<V>(s.number_of(j, g_left));
    const V gr = load<V>(s.number_of(j, g_right));
    const V h = load<V>(s.number_of(j, contact));
    const V per_l = 1 / (gl * il.slope);
    const V per_r = 1 / (gr * ir.slope);
    const V rl = wl.slope * per_l;
    const V rr = wr.slope * per_r;
    const Cover c = cover(s, j, film);
    const V bare = 1 - c.share;
    const V held = h / (1 + h * (rl + rr));
    const V across = held * (wl.value - wr.value);
    x.value.left = -bare * across;
    x.value.right = bare * across;
    V rl_slope{};
    V rr_slope{};
    if constexpr (slopes) {
      rl_slope = (wl.bend - rl * gl * il.bend) * per_l;
      rr_slope = (wr.bend - rr * gr * ir.bend) * per_r;
      const V by_left = bare * held * (wl.slope - across * rl_slope);
      const V by_right = bare * held * (-wr.slope - across * rr_slope);
      x.by_left.left = -by_left;
      x.by_left.right = by_left;
      x.by_right.left = -by_right;
      x.by_right.right = by_right;
      x.by_film.left = c.slope * across;
      x.by_film.right = -c.slope * across;
    }
    if (!q.film) return;
    // The film wets the layer it lies on and reaches the other through the contact.
    const V bridged = bridge * h;
    const auto wet = [&](int layer, V g, const Curve<V>& here, Number activity, Number liquid,
                         V& into, V& by_own, V& by_film) {
      const V full =
          when_full(s, layer, load<V>(s.number_of(j, activity)), load<V>(s.number_of(j, liquid)));
      const V drunk = g * (full - here.value);
      into += c.share * drunk;
      by_own -= c.share * g * here.slope;
      by_film += c.slope * drunk;
    };
    const auto reach = [&](Number free, const Curve<V>& there, V r, V r_slope, V& into, V& by_own,
                           V& by_film) {
      const V through = bridged / (1 + bridged * r);
      const V drunk = through * (load<V>(s.number_of(j, free)) - there.value);
      into += c.share * drunk;
      by_own -= c.share * through * (there.slope + drunk * r_slope);
      by_film += c.slope * drunk;
    };
    if (q.film_on_left) {
      wet(q.left_layer, gl, il, activity_left, liquid_left, x.value.left, x.by_left.left,
          x.by_film.left);
      reach(reference_left, wr, rr, rr_slope, x.value.right, x.by_right.right, x.by_film.right);
    } else {
      wet(q.right_layer, gr, ir, activity_right, liquid_right, x.value.right, x.by_right.right,
          x.by_film.right);
      reach(reference_right, wl, rl, rl_slope, x.value.left, x.by_left.left, x.by_film.left);
    }
    const auto taken = [](Exchange<V>& e) { e.film = -(e.left + e.right); };
    taken(x.value);
    if constexpr (slopes) {
      taken(x.by_left);
      taken(x.by_right);
      taken(x.by_film);
    }
  }

  // A sheet's face: the cell's own exchange, told apart by side where it is stored.
  struct Side {
    V into, film, out, heat;
  };
  struct SidedSlopes {
    Side value, by_cell, by_film, by_kelvin;
  };

  template <bool slopes>
  static void to_air(const System& s, int j, const Warmth<V>& w, const Curve<V>& here, V g, V u,
                     const Cover& c, SidedSlopes& x) {
    const Joint& q = s.joint[j];
    const V air = load<V>(s.number_of(j, air_kelvin));
    const V per_depression_k = load<V>(s.number_of(j, per_depression));
    const V colder = magnitude(air - w.kelvin) * per_depression_k;
    const V root4 = root(root(colder));
    const V per = all<V>(AirSide::intervals / table_end);
    const auto p = place(smaller(root4, all<V>(table_end)) * per, AirSide::intervals - 1);
    Rows<V> transfers;
    Rows<V> convections;
    for (int e = 0; e < lanes; ++e) {
      const double* row = s.air_table + (j * lanes + e) * air_rows + 8 * p.at(e);
      transfers[slot<V>(e)] = load<Four>(row);
      convections[slot<V>(e)] = load<Four>(row + 4);
    }
    const Curve<V> k = curve(turned(transfers), p.within, per);
    const Curve<V> h = curve(turned(convections), p.within, per);

    // Net heat of sorption 1160 exp(-u/0.0397) J/g, and the activity it leaves when warmer
    // (material/isotherm).
    const V binding = 1.160e6 * exponential(u * (-1 / 0.0397));
    const V per_kelvin = 1 / w.kelvin;
    const V apart = (1 / reference_kelvin - per_kelvin) * (1 / vapour_gas);
    const V factor = exponential(binding * apart);
    const V latent = 2.5009e6 - 2360.4 * (w.kelvin - 273.15);
    const V density = load<V>(s.number_of(j, vapour_density));
    const V vapour = load<V>(s.number_of(j, vapour_pa));
    const V per_total = load<V>(s.number_of(j, per_two_total));
    const V per_pa = per_kelvin * (1 / vapour_gas);
    const Curve<V> activity = activity_of(s, q.left < 0 ? q.right_layer : q.left_layer, u);

    const V pressure = factor * w.saturation_pa;
    const V e_cell = activity.value * pressure;
    const V per_blown = 1 / (1 - (e_cell + vapour) * per_total);
    const V driven = (e_cell * per_pa - density) * per_blown;
    // The half cell under the face in series, by the slope of the surface's activity.
    const V per_g = 1 / (g * here.slope);
    const V half = per_pa * pressure * activity.slope * per_g;
    const V series = 1 / (1 + k.value * half);
    const V out = k.value * driven * series;
    const V bare = 1 - c.share;
    const V taken = latent + binding;
    const V gain = h.value + load<V>(s.number_of(j, radiation));
    x.value.into -= bare * out;
    x.value.out = bare * out;
    x.value.heat = gain * (air - w.kelvin) - bare * out * taken;

    V film_out{};
    V film_driven{};
    V film_blown{};
    if (q.film) {
      film_blown = 1 / (1 - (w.saturation_pa + vapour) * per_total);
      film_driven = (w.saturation_pa * per_pa - density) * film_blown;
      film_out = k.value * film_driven;
      x.value.film -= c.share * film_out;
      x.value.out += c.share * film_out;
      x.value.heat -= c.share * film_out * latent;
    }
    if constexpr (slopes) {
      // By u.
      const V binding_slope = binding * (-1 / 0.0397);
      const V factor_slope = apart * binding_slope;  // of ln
      const V e_slope = pressure * (activity.slope + activity.value * factor_slope);
      const V driven_by_e = (per_pa + driven * per_total) * per_blown;
      const V half_slope =
          per_pa * pressure * per_g *
          (activity.bend + activity.slope * (factor_slope - here.bend * g * per_g));
      const V out_u = k.value * series * (driven_by_e * e_slope - out * half_slope);
      x.by_cell.into -= bare * out_u;
      x.by_cell.out = bare * out_u;
      x.by_cell.heat = -bare * (out_u * taken + out * binding_slope);
      // By film.
      x.by_film.into += c.slope * out;
      x.by_film.out = c.slope * (film_out - out);
      x.by_film.film -= c.slope * film_out;
      x.by_film.heat = c.slope * (out * taken - film_out * latent);
      // By temperature; the coefficients go as the fourth root of the difference.
      const V chill = w.kelvin < air ? -per_depression_k : per_depression_k;
      const V root_slope = root4 < all<V>(table_end) ? 0.25 * root4 / (colder + 1e-6) * chill : V{};
      const V k_t = k.slope * root_slope;
      const V h_t = h.slope * root_slope;
      const V pressure_t = w.saturation_slope * factor +
                           pressure * binding * (1 / vapour_gas) * per_kelvin * per_kelvin;
      const V per_pa_t = -per_pa * per_kelvin;
      const V driven_t = driven_by_e * activity.value * pressure_t + e_cell * per_pa_t * per_blown;
      const V half_t = half * (pressure_t / pressure - per_kelvin);
      const V out_t =
          series * (k_t * driven + k.value * driven_t - out * (k_t * half + k.value * half_t));
      x.by_kelvin.into = -bare * out_t;
      x.by_kelvin.out = bare * out_t;
      x.by_kelvin.heat = h_t * (air - w.kelvin) - gain - bare * (out_t * taken - out * 2360.4);
      if (q.film) {
        const V film_t =
            k_t * film_driven + k.value *
                                    ((per_pa + film_driven * per_total) * w.saturation_slope +
                                     w.saturation_pa * per_pa_t) *
                                    film_blown;
        x.by_kelvin.film = -c.share * film_t;
        x.by_kelvin.out += c.share * film_t;
        x.by_kelvin.heat -= c.share * (film_t * latent - film_out * 2360.4);
      }
    }
  }

  template <bool slopes>
  static void to_world(const System& s, int j, const Warmth<V>& w, V u, V film, Sloping<V>& out) {
    const Joint& q = s.joint[j];
    const bool at_left = q.left < 0;
    const int layer = at_left ? q.right_layer : q.left_layer;
    const Curve<V> here = in_cell(s, at_left ? q.right : q.left);
    const V g = load<V>(s.number_of(j, at_left ? g_right : g_left));
    const auto drunk = [&] {
      return g *
             (when_full(s, layer, load<V>(s.number_of(j, at_left ? activity_right : activity_left)),
                        load<V>(s.number_of(j, at_left ? liquid_right : liquid_left))) -
              here.value);
    };
    SidedSlopes x{};
    if (q.kind == FaceKind::water) {
      x.value.into = drunk();
      x.value.out = -x.value.into;
      x.by_cell.into = -g * here.slope;
      x.by_cell.out = g * here.slope;
    } else {
      const Cover c = cover(s, j, film);
      if (q.film) {
        const V into = drunk();
        x.value.into = c.share * into;
        x.value.film = -x.value.into;
        x.by_cell.into = -c.share * g * here.slope;
        x.by_cell.film = -x.by_cell.into;
        x.by_film.into = c.slope * into;
        x.by_film.film = -x.by_film.into;
      }
      if (q.kind == FaceKind::air) to_air<slopes>(s, j, w, here, g, u, c, x);
    }
    const auto put = [&](const Side& from, Exchange<V>& to) {
      (at_left ? to.right : to.left) = from.into;
      to.film = from.film;
      to.out = from.out;
      to.heat = from.heat;
    };
    put(x.value, out.value);
    if constexpr (slopes) {
      put(x.by_cell, at_left ? out.by_right : out.by_left);
      put(x.by_film, out.by_film);
      put(x.by_kelvin, out.by_kelvin);
    }
  }
};

}  // namespace
}  // namespace dampline::stack::kernel
