#pragma once

/// General solvers for stiff equations behind one plain interface, to compare with.
namespace dampline::bench {

/// dz/dt = f(z), not of time, with its Jacobian as a dense matrix, row by row.
struct Equations {
  int size = 0;
  void* context = nullptr;
  void (*derivative)(void* context, const double* z, double* dz) = nullptr;
  void (*jacobian)(void* context, const double* z, double* rows) = nullptr;
  void (*stepped)(void* context, const double* before, const double* after) = nullptr;
};

struct Effort {
  long steps = 0;     // taken
  long rejected = 0;  // tried again
};

/// Takes z through `seconds`; the error of a step is the root mean square over the components, each
/// against `allowed`.
using Solve = Effort (*)(const Equations& equations, double* z, double seconds, double first_step,
                         double allowed);

/// Boost.Odeint: a Rosenbrock method of fourth order, dense matrices. In a file of its own because
/// its uBLAS (Boost 1.74) compiles only as C++17.
Effort rosenbrock4(const Equations& equations, double* z, double seconds, double first_step,
                   double allowed);

/// CVODE of SUNDIALS, where it is installed: backward differences of variable order, dense matrices
/// that it factors only now and then.
Effort cvode(const Equations& equations, double* z, double seconds, double first_step,
             double allowed);

}  // namespace dampline::bench
