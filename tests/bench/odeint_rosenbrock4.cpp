#define BOOST_UBLAS_NDEBUG  // no checks of the matrices' internals, as a user's release build
#include <utility>

#include <boost/numeric/odeint/stepper/rosenbrock4.hpp>
#include <boost/numeric/odeint/stepper/rosenbrock4_controller.hpp>

#include "general_solvers.hpp"

namespace dampline::bench {

namespace {

namespace odeint = boost::numeric::odeint;
using Vector = boost::numeric::ublas::vector<double>;
using Matrix = boost::numeric::ublas::matrix<double>;

struct Derivative {
  const Equations* equations;
  void operator()(const Vector& z, Vector& dz, double) const {
    equations->derivative(equations->context, &z.data()[0], &dz.data()[0]);
  }
};

struct Jacobian {
  const Equations* equations;
  void operator()(const Vector& z, Matrix& rows, double, Vector& by_time) const {
    equations->jacobian(equations->context, &z.data()[0], &rows.data()[0]);
    by_time.clear();
  }
};

}  // namespace

Effort rosenbrock4(const Equations& equations, double* z, double seconds, double first_step,
                   double allowed) {
  odeint::rosenbrock4_controller<odeint::rosenbrock4<double>> controller(allowed, 0.0);
  const auto system = std::make_pair(Derivative{&equations}, Jacobian{&equations});
  const auto size = static_cast<std::size_t>(equations.size);
  Vector x(size);
  Vector before(size);
  for (std::size_t i = 0; i < size; ++i) x[i] = z[i];
  Effort effort;
  double t = 0;
  double dt = first_step;
  while (t < seconds) {
    const bool last = dt >= seconds - t;
    if (last) dt = seconds - t;
    before = x;
    if (controller.try_step(system, x, t, dt) == odeint::success) {
      ++effort.steps;
      equations.stepped(equations.context, &before.data()[0], &x.data()[0]);
      if (last) break;
    } else {
      ++effort.rejected;
    }
  }
  for (std::size_t i = 0; i < size; ++i) z[i] = x[i];
  return effort;
}

}  // namespace dampline::bench
