#pragma once

#if defined(__AVX2__) || defined(__AVX512F__)
#include <immintrin.h>
#endif

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

// The larger or smaller, b where either is NaN: one instruction of the processors that have it,
// which the compiler does not find by itself.
template <class V>
[[maybe_unused]] inline V larger(V a, V b) {
  return a > b ? a : b;
}
template <class V>
[[maybe_unused]] inline V smaller(V a, V b) {
  return a < b ? a : b;
}
#if defined(__AVX2__)
[[maybe_unused]] inline Four larger(Four a, Four b) { return _mm256_max_pd(a, b); }
[[maybe_unused]] inline Four smaller(Four a, Four b) { return _mm256_min_pd(a, b); }
#endif
#if defined(__AVX512F__)
[[maybe_unused]] inline Eight larger(Eight a, Eight b) { return _mm512_maskz_max_pd(0xff, a, b); }
[[maybe_unused]] inline Eight smaller(Eight a, Eight b) { return _mm512_maskz_min_pd(0xff, a, b); }
#endif
template <class V>
[[maybe_unused]] inline V magnitude(V a) {
  typename Whole<V>::Type bits;
  __builtin_memcpy(&bits, &a, sizeof bits);
  bits &= 0x7fffffffffffffffLL;
  __builtin_memcpy(&a, &bits, sizeof bits);
  return a;
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
#if defined(__AVX2__)
[[maybe_unused]] inline Four root(Four a) { return _mm256_sqrt_pd(a); }
#endif
#if defined(__AVX512F__)
[[maybe_unused]] inline Eight root(Eight a) { return _mm512_maskz_sqrt_pd(0xff, a); }
#endif

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
  typename Whole<V>::Type interval;
  V whole;  // the same
  V within;
  [[nodiscard]] long long at(int i) const {
    if constexpr (count<V> == 1) {
      return interval;
    } else {
      return interval[i];
    }
  }
};
template <class V>
[[maybe_unused]] inline Place<V> place(V x, int last) {
  constexpr double magic = 4503599627370496.0;  // 2^52: the low bits are the whole number
  // A NaN lands at 0.
  const V shifted = smaller(larger(x - 0.5, V{}), all<V>(last + 0.25)) + magic;
  Place<V> p;
  __builtin_memcpy(&p.interval, &shifted, sizeof shifted);
  p.interval &= 0xffffffffLL;
  p.whole = shifted - magic;
  p.within = x - p.whole;
  return p;
}

// Four numbers for each of those in V, a row each; that of number e at slot<V>(e), so that a vector
// of eight takes a row of its lower and one of its upper half at once.
template <class V>
using Rows = Four[sizeof(V) / sizeof(double)];
template <class V>
constexpr int slot(int e) {
  return count<V> == 8 ? e % 4 * 2 + e / 4 : e;
}

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
[[maybe_unused]] inline Cubic<Four> turned(const Four (&r)[4]) {
  const auto& [a, b, c, d] = r;
  const Four even = __builtin_shufflevector(a, b, 0, 4, 2, 6);
  const Four odd = __builtin_shufflevector(a, b, 1, 5, 3, 7);
  const Four even2 = __builtin_shufflevector(c, d, 0, 4, 2, 6);
  const Four odd2 = __builtin_shufflevector(c, d, 1, 5, 3, 7);
  return {__builtin_shufflevector(even, even2, 0, 1, 4, 5),
          __builtin_shufflevector(odd, odd2, 0, 1, 4, 5),
          __builtin_shufflevector(even, even2, 2, 3, 6, 7),
          __builtin_shufflevector(odd, odd2, 2, 3, 6, 7)};
}
[[maybe_unused]] inline Cubic<Eight> turned(const Four (&r)[8]) {
  const auto pair = [&](int i) {
    Eight v;
    __builtin_memcpy(&v, r + 2 * i, sizeof v);
    return v;
  };
  const Eight even = __builtin_shufflevector(pair(0), pair(1), 0, 8, 2, 10, 4, 12, 6, 14);
  const Eight odd = __builtin_shufflevector(pair(0), pair(1), 1, 9, 3, 11, 5, 13, 7, 15);
  const Eight even2 = __builtin_shufflevector(pair(2), pair(3), 0, 8, 2, 10, 4, 12, 6, 14);
  const Eight odd2 = __builtin_shufflevector(pair(2), pair(3), 1, 9, 3, 11, 5, 13, 7, 15);
  return {__builtin_shufflevector(even, even2, 0, 1, 8, 9, 4, 5, 12, 13),
          __builtin_shufflevector(odd, odd2, 0, 1, 8, 9, 4, 5, 12, 13),
          __builtin_shufflevector(even, even2, 2, 3, 10, 11, 6, 7, 14, 15),
          __builtin_shufflevector(odd, odd2, 2, 3, 10, 11, 6, 7, 14, 15)};
}

// Rows of two knots of two curves each, {f, f', g, g'} twice, already weighed: knots of the sum
// f + g, one V a coefficient. A vector of eight takes both knots of a row at once.
template <class V>
struct Knotted {
  Four first[sizeof(V) / sizeof(double)];
  Four second[sizeof(V) / sizeof(double)];
  void put(int e, const double* knots, const double* weights) {
    first[e] = load<Four>(knots) * load<Four>(weights);
    second[e] = load<Four>(knots + 4) * load<Four>(weights);
  }
  void add(int e, const double* knots, const double* weights) {
    first[e] += load<Four>(knots) * load<Four>(weights);
    second[e] += load<Four>(knots + 4) * load<Four>(weights);
  }
};
template <>
struct Knotted<Eight> {
  Eight both[8];
  void put(int e, const double* knots, const double* weights) {
    both[e] = load<Eight>(knots) * load<Eight>(weights);
  }
  void add(int e, const double* knots, const double* weights) {
    both[e] += load<Eight>(knots) * load<Eight>(weights);
  }
};
[[maybe_unused]] inline Cubic<double> summed(const Knotted<double>& r) {
  const Four& a = r.first[0];
  const Four& b = r.second[0];
  return {a[0] + a[2], a[1] + a[3], b[0] + b[2], b[1] + b[3]};
}
[[maybe_unused]] inline Cubic<Two> summed(const Knotted<Two>& r) {
  const auto sum = [](const Four& k) {
    return __builtin_shufflevector(k, k, 0, 1) + __builtin_shufflevector(k, k, 2, 3);
  };
  const Two a0 = sum(r.first[0]);
  const Two a1 = sum(r.first[1]);
  const Two b0 = sum(r.second[0]);
  const Two b1 = sum(r.second[1]);
  return {__builtin_shufflevector(a0, a1, 0, 2), __builtin_shufflevector(a0, a1, 1, 3),
          __builtin_shufflevector(b0, b1, 0, 2), __builtin_shufflevector(b0, b1, 1, 3)};
}
[[maybe_unused]] inline Cubic<Four> summed(const Knotted<Four>& r) {
  const auto sum = [](const Four& x, const Four& y) {
    return __builtin_shufflevector(x, y, 0, 1, 4, 5) + __builtin_shufflevector(x, y, 2, 3, 6, 7);
  };
  const Four a02 = sum(r.first[0], r.first[2]);
  const Four a13 = sum(r.first[1], r.first[3]);
  const Four b02 = sum(r.second[0], r.second[2]);
  const Four b13 = sum(r.second[1], r.second[3]);
  return {
      __builtin_shufflevector(a02, a13, 0, 4, 2, 6), __builtin_shufflevector(a02, a13, 1, 5, 3, 7),
      __builtin_shufflevector(b02, b13, 0, 4, 2, 6), __builtin_shufflevector(b02, b13, 1, 5, 3, 7)};
}
[[maybe_unused]] inline Cubic<Eight> summed(const Knotted<Eight>& r) {
  const auto halves = [](const Eight& x, const Eight& y, auto low) {  // of each, one knot
    if constexpr (low) {
      return __builtin_shufflevector(x, y, 0, 1, 4, 5, 8, 9, 12, 13);
    } else {
      return __builtin_shufflevector(x, y, 2, 3, 6, 7, 10, 11, 14, 15);
    }
  };
  constexpr struct {
    constexpr operator bool() const { return true; }
  } low;
  constexpr struct {
    constexpr operator bool() const { return false; }
  } high;
  const auto sum = [&](int x, int y) {
    return halves(r.both[x], r.both[y], low) + halves(r.both[x], r.both[y], high);
  };
  const Eight s02 = sum(0, 2);
  const Eight s46 = sum(4, 6);
  const Eight s13 = sum(1, 3);
  const Eight s57 = sum(5, 7);
  const Eight first_even = halves(s02, s46, low);
  const Eight first_odd = halves(s13, s57, low);
  const Eight second_even = halves(s02, s46, high);
  const Eight second_odd = halves(s13, s57, high);
  return {__builtin_shufflevector(first_even, first_odd, 0, 8, 2, 10, 4, 12, 6, 14),
          __builtin_shufflevector(first_even, first_odd, 1, 9, 3, 11, 5, 13, 7, 15),
          __builtin_shufflevector(second_even, second_odd, 0, 8, 2, 10, 4, 12, 6, 14),
          __builtin_shufflevector(second_even, second_odd, 1, 9, 3, 11, 5, 13, 7, 15)};
}

/// The cubic between two knots, from their values and slopes: each by rising power.
template <class V>
[[maybe_unused]] inline Cubic<V> between_knots(const Cubic<V>& k, V width) {
  const V chord = k.c2 - k.c0;
  const V from = width * k.c1;
  const V to = width * k.c3;
  const V both = from + to;
  return {k.c0, from, 3 * chord - both - from, both - 2 * chord};
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
