#include <array>
#include <cmath>
#include <complex>

#include <gtest/gtest.h>

#include <dampline/stack/rosenbrock.hpp>

// The numbers of the method in time, held to what they were solved from: the order conditions of
// Rosenbrock methods [hairer1996] IV.7, eq. 7.11 and table 7.1, to the rounding of doubles.
namespace dampline::stack {
namespace {

constexpr std::size_t stages = kernel::Rosenbrock::stages;
using Row = std::array<double, stages>;
using Matrix = std::array<Row, stages>;

// alpha, beta = alpha + Gamma and weights, back from the form with U = Gamma K.
struct Tableau {
  Matrix alpha{};
  Matrix beta{};
  double gamma = kernel::rosenbrock.gamma;
};

// Gamma: the inverse of I/gamma - couple, lower triangular.
Matrix gamma_matrix() {
  const auto& m = kernel::rosenbrock;
  Matrix g{};
  for (std::size_t j = 0; j < stages; ++j) {
    for (std::size_t i = j; i < stages; ++i) {
      double sum = i == j ? 1 : 0;
      for (std::size_t k = j; k < i; ++k) sum += m.couple[i][k] * g[k][j];
      g[i][j] = sum * m.gamma;
    }
  }
  return g;
}

Row times(const Row& weights, const Matrix& g) {
  Row r{};
  for (std::size_t j = 0; j < stages; ++j) {
    for (std::size_t i = 0; i < stages; ++i) r[j] += weights[i] * g[i][j];
  }
  return r;
}
Row of(const double (&numbers)[stages]) {
  Row r{};
  for (std::size_t i = 0; i < stages; ++i) r[i] = numbers[i];
  return r;
}

// Where every stage looks, those that share the rates of an earlier one too.
Matrix looking() {
  const auto& m = kernel::rosenbrock;
  Matrix at{};
  for (std::size_t i = 0; i < stages; ++i) {
    const int shared = m.rates_of[i];
    for (std::size_t j = 0; static_cast<int>(j) < shared; ++j) at[i][j] = m.at[shared][j];
  }
  return at;
}

Tableau tableau() {
  const Matrix g = gamma_matrix();
  const Matrix at = looking();
  Tableau t;
  for (std::size_t i = 0; i < stages; ++i) {
    t.alpha[i] = times(at[i], g);
    for (std::size_t j = 0; j < stages; ++j) t.beta[i][j] = t.alpha[i][j] + g[i][j];
  }
  return t;
}

Row on(const Matrix& m, const Row& v) {
  Row r{};
  for (std::size_t i = 0; i < stages; ++i) {
    for (std::size_t j = 0; j < stages; ++j) r[i] += m[i][j] * v[j];
  }
  return r;
}
Row product(const Row& a, const Row& b) {
  Row r{};
  for (std::size_t i = 0; i < stages; ++i) r[i] = a[i] * b[i];
  return r;
}
double dot(const Row& a, const Row& b) {
  double sum = 0;
  for (std::size_t i = 0; i < stages; ++i) sum += a[i] * b[i];
  return sum;
}

struct Condition {
  Row stages;
  double wanted;
  int order;
};
std::array<Condition, 8> conditions() {
  const Tableau t = tableau();
  Row one{};
  one.fill(1);
  const Row a = on(t.alpha, one);
  const Row b = on(t.beta, one);
  const Row aa = product(a, a);
  const Row bb = on(t.beta, b);
  return {{{one, 1, 1},
           {b, 1.0 / 2, 2},
           {aa, 1.0 / 3, 3},
           {bb, 1.0 / 6, 3},
           {product(aa, a), 1.0 / 4, 4},
           {product(a, on(t.alpha, b)), 1.0 / 8, 4},
           {on(t.beta, aa), 1.0 / 12, 4},
           {on(t.beta, bb), 1.0 / 24, 4}}};
}

constexpr double rounding = 1e-13;

TEST(Rosenbrock, isOfFourthOrder) {
  const Row result = times(of(kernel::rosenbrock.result), gamma_matrix());
  for (const Condition& c : conditions()) EXPECT_NEAR(dot(result, c.stages), c.wanted, rounding);
}

TEST(Rosenbrock, embedsAResultOfThirdOrderAndNoHigher) {
  const Row error = times(of(kernel::rosenbrock.error), gamma_matrix());
  double fourth = 0;
  for (const Condition& c : conditions()) {
    if (c.order < 4) {
      EXPECT_NEAR(dot(error, c.stages), 0, rounding);
    } else {
      fourth += std::abs(dot(error, c.stages));
    }
  }
  EXPECT_GT(fourth, 0.01);
}

TEST(Rosenbrock, isOfThirdOrderWithinAStepAndMeetsItsEnd) {
  const auto& d = kernel::rosenbrock.dense;
  for (const double share : {0.1, 0.35, 0.5, 0.8, 1.0}) {
    Row within{};
    for (std::size_t i = 0; i < stages; ++i) {
      within[i] = share * (d[0][i] + share * (d[1][i] + share * d[2][i]));
    }
    if (share == 1) {
      for (std::size_t i = 0; i < stages; ++i) {
        EXPECT_NEAR(within[i], kernel::rosenbrock.result[i], rounding);
      }
    }
    const Row weights = times(within, gamma_matrix());
    for (const Condition& c : conditions()) {
      const double wanted = c.wanted * std::pow(share, c.order);
      EXPECT_NEAR(dot(weights, c.stages), wanted, c.order < 4 ? rounding : 0.01);
    }
  }
}

// Stages of a step of dy/dt = z y from 1, by their own recursion.
using Stages = std::array<std::complex<double>, stages>;
Stages stages_of_a_step(std::complex<double> z) {
  const auto& m = kernel::rosenbrock;
  const Matrix at = looking();
  Stages u;
  for (std::size_t i = 0; i < stages; ++i) {
    std::complex<double> rate = z;
    std::complex<double> coupled = 0;
    for (std::size_t j = 0; j < i; ++j) {
      rate += z * at[i][j] * u[j];
      coupled += m.couple[i][j] * u[j];
    }
    u[i] = (rate + coupled) / (1 / m.gamma - z);
  }
  return u;
}
std::complex<double> after_a_step(std::complex<double> z) {
  const Stages u = stages_of_a_step(z);
  std::complex<double> y = 1;
  for (std::size_t i = 0; i < stages; ++i) y += kernel::rosenbrock.result[i] * u[i];
  return y;
}

TEST(Rosenbrock, isLStable) {
  for (double w = 1e-3; w < 1e6; w *= 1.1) {
    EXPECT_LE(std::abs(after_a_step({0, w})), 1 + 1e-12) << w;
  }
  EXPECT_LT(std::abs(after_a_step(-1e8)), 1e-6);
}

TEST(Rosenbrock, staysSmallWithinAStiffStep) {
  const auto& d = kernel::rosenbrock.dense;
  const Stages u = stages_of_a_step(-1e8);
  for (double share = 0; share <= 1; share += 0.01) {
    double y = 1;
    for (std::size_t i = 0; i < stages; ++i) {
      y += share * (d[0][i] + share * (d[1][i] + share * d[2][i])) * u[i].real();
    }
    EXPECT_LE(std::abs(y), 1 + 1e-9) << share;
  }
}

// What fades out does not swing to the other side, whatever the step: no sheet dries past its air.
TEST(Rosenbrock, neverOvershootsADecay) {
  for (double x = 1e-3; x < 1e9; x *= 1.05) {
    const double left = after_a_step(-x).real();
    EXPECT_GT(left, -1e-9) << x;
    EXPECT_LT(left, 1) << x;
  }
}

}  // namespace
}  // namespace dampline::stack
