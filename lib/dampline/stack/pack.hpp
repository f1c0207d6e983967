#pragma once

// Numbers side by side, for the solver's inner loops: `double`, or a vector of 2, 4 or 8 doubles
// that the compiler turns into whatever the processor has. One source, written once for any V.
//
// Everything has internal linkage on purpose: each file that includes this is compiled for another
// processor, and none of its code may be taken for that of another file. For the same reason
// nothing of the standard library is called.
namespace dampline::stack::kernel {
namespace {  // NOLINT(google-build-namespaces)

using Two = double __attribute__((vector_size(16)));
using Four = double __attribute__((vector_size(32)));
using Eight = double __attribute__((vector_size(64)));

template <class V>
constexpr int count = static_cast<int>(sizeof(V) / sizeof(double));

template <class V>
struct Whole;  // integers as wide as the doubles
template <>
struct Whole<double> {
  using Type = long long;
};
template <>
struct Whole<Two> {
  using Type = long long __attribute__((vector_size(16)));
};
template <>
struct Whole<Four> {
  using Type = long long __attribute__((vector_size(32)));
};
template <>
struct Whole<Eight> {
  using Type = long long __attribute__((vector_size(64)));
};

template <class V>
[[maybe_unused]] inline V load(const double* p) {
  V v;
  __builtin_memcpy(&v, p, sizeof v);
  return v;
}
template <class V>
[[maybe_unused]] inline void store(double* p, V v) {
  __builtin_memcpy(p, &v, sizeof v);
}
template <class V>
[[maybe_unused]] inline V all(double x) {
  return x - V{};
}
template <class V>
[[maybe_unused]] inline double lane(V v, int i) {
  if constexpr (count<V> == 1) {
    return v;
  } else {
    return v[i];
  }
}

template <class V>
[[maybe_unused]] inline V larger(V a, V b) {
  return a > b ? a : b;
}
template <class V>
[[maybe_unused]] inline V smaller(V a, V b) {
  return a < b ? a : b;
}
template <class V>
[[maybe_unused]] inline V magnitude(V a) {
  return a < V{} ? -a : a;
}
template <class V>
[[maybe_unused]] inline double largest(V a) {
  double most = lane(a, 0);
  for (int i = 1; i < count<V>; ++i) most = lane(a, i) > most ? lane(a, i) : most;
  return most;
}
template <class V>
[[maybe_unused]] inline V root(V a) {
  if constexpr (count<V> == 1) {
    return __builtin_sqrt(a);
  } else {
    V r{};
    for (int i = 0; i < count<V>; ++i) r[i] = __builtin_sqrt(a[i]);
    return r;
  }
}

/// exp(x) for x from -700 to 700 (held there beyond). Error 3e-15 relative: the series to the 12th
/// power over half of ln 2, scaled by writing the exponent.
template <class V>
[[maybe_unused]] inline V exponential(V x) {
  constexpr double magic = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds to a whole number
  x = larger(smaller(x, all<V>(700.0)), all<V>(-700.0));
  const V shifted = x * 1.4426950408889634 + magic;
  const V n = shifted - magic;
  const V r = (x - n * 6.93147180369123816490e-01) - n * 1.90821492927058770002e-10;
  V p = all<V>(1.0 / 479001600);
  constexpr double series[] = {1.0 / 39916800, 1.0 / 3628800, 1.0 / 362880, 1.0 / 40320,
                               1.0 / 5040,     1.0 / 720,     1.0 / 120,    1.0 / 24,
                               1.0 / 6,        0.5,           1.0,          1.0};
  for (const double c : series) p = p * r + c;
  typename Whole<V>::Type bits;
  __builtin_memcpy(&bits, &shifted, sizeof bits);
  bits = (bits + 1023) << 52;
  V scale;
  __builtin_memcpy(&scale, &bits, sizeof scale);
  return p * scale;
}

/// Intervals in which each x lies (x counted in intervals; 0 to `last`) and how far into them.
template <class V>
struct Place {
  long long interval[count<V>];
  V within;
};
template <class V>
[[maybe_unused]] inline Place<V> place(V x, int last) {
  constexpr double magic = 4503599627370496.0;  // 2^52: the low bits are the whole number
  const V inside = x > V{} ? smaller(x, all<V>(last + 0.75)) : V{};  // so that a NaN lands at 0
  const V shifted = larger(inside - 0.5, V{}) + magic;
  typename Whole<V>::Type bits;
  __builtin_memcpy(&bits, &shifted, sizeof bits);
  bits &= 0xffffffffLL;
  Place<V> p;
  __builtin_memcpy(p.interval, &bits, sizeof bits);
  p.within = x - (shifted - magic);
  return p;
}

template <class V>
using Rows = Four[sizeof(V) / sizeof(double)];

// Four coefficients for each of the numbers in V, one row a number, turned into one V a
// coefficient.
template <class V>
struct Cubic {
  V c0, c1, c2, c3;
};
[[maybe_unused]] inline Cubic<double> turned(const Four (&r)[1]) {
  return {r[0][0], r[0][1], r[0][2], r[0][3]};
}
[[maybe_unused]] inline Cubic<Two> turned(const Four (&r)[2]) {
  return {__builtin_shufflevector(r[0], r[1], 0, 4), __builtin_shufflevector(r[0], r[1], 1, 5),
          __builtin_shufflevector(r[0], r[1], 2, 6), __builtin_shufflevector(r[0], r[1], 3, 7)};
}
[[maybe_unused]] inline Cubic<Four> turned(Four a, Four b, Four c, Four d) {
  const Four even = __builtin_shufflevector(a, b, 0, 4, 2, 6);
  const Four odd = __builtin_shufflevector(a, b, 1, 5, 3, 7);
  const Four even2 = __builtin_shufflevector(c, d, 0, 4, 2, 6);
  const Four odd2 = __builtin_shufflevector(c, d, 1, 5, 3, 7);
  return {__builtin_shufflevector(even, even2, 0, 1, 4, 5),
          __builtin_shufflevector(odd, odd2, 0, 1, 4, 5),
          __builtin_shufflevector(even, even2, 2, 3, 6, 7),
          __builtin_shufflevector(odd, odd2, 2, 3, 6, 7)};
}
[[maybe_unused]] inline Cubic<Four> turned(const Four (&r)[4]) {
  return turned(r[0], r[1], r[2], r[3]);
}
[[maybe_unused]] inline Eight joined(Four a, Four b) {
  return __builtin_shufflevector(a, b, 0, 1, 2, 3, 4, 5, 6, 7);
}
[[maybe_unused]] inline Cubic<Eight> turned(const Four (&r)[8]) {
  const Cubic<Four> a = turned(r[0], r[1], r[2], r[3]);
  const Cubic<Four> b = turned(r[4], r[5], r[6], r[7]);
  return {joined(a.c0, b.c0), joined(a.c1, b.c1), joined(a.c2, b.c2), joined(a.c3, b.c3)};
}

/// A curve at a point: value, first and second derivative by x, `per` intervals to a unit of x.
/// Carried on straight beyond the first and last interval.
template <class V>
struct Curve {
  V value, slope, bend;
};
template <class V>
[[maybe_unused]] inline Curve<V> curve(const Cubic<V>& c, V t, V per) {
  const V in = larger(smaller(t, all<V>(1.0)), V{});
  const V slope = c.c1 + in * (2 * c.c2 + in * (3 * c.c3));
  const V value = c.c0 + in * (c.c1 + in * (c.c2 + in * c.c3)) + (t - in) * slope;
  return {value, slope * per, (2 * c.c2 + (6 * in) * c.c3) * (per * per)};
}

}  // namespace
}  // namespace dampline::stack::kernel
