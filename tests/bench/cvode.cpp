#include <stdexcept>
#include <vector>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include "general_solvers.hpp"

namespace dampline::bench {

namespace {

struct Problem {
  const Equations* equations;
  std::vector<double> rows;
};

int derivative(realtype, N_Vector z, N_Vector dz, void* problem) {
  const Equations& e = *static_cast<Problem*>(problem)->equations;
  e.derivative(e.context, N_VGetArrayPointer(z), N_VGetArrayPointer(dz));
  return 0;
}

int jacobian(realtype, N_Vector z, N_Vector, SUNMatrix m, void* problem, N_Vector, N_Vector,
             N_Vector) {
  auto& p = *static_cast<Problem*>(problem);
  const Equations& e = *p.equations;
  e.jacobian(e.context, N_VGetArrayPointer(z), p.rows.data());
  for (int c = 0; c < e.size; ++c) {
    realtype* column = SUNDenseMatrix_Column(m, c);
    for (int r = 0; r < e.size; ++r) column[r] = p.rows[static_cast<std::size_t>(r * e.size + c)];
  }
  return 0;
}

void require(int flag) {
  if (flag < 0) throw std::runtime_error("CVODE failed");
}

}  // namespace

Effort cvode(const Equations& equations, double* z, double seconds, double first_step,
             double allowed) {
  const auto size = static_cast<std::size_t>(equations.size);
  Problem problem{&equations, std::vector<double>(size * size)};
  sundials::Context context;
  N_Vector y = N_VMake_Serial(equations.size, z, context);
  SUNMatrix matrix = SUNDenseMatrix(equations.size, equations.size, context);
  SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
  void* memory = CVodeCreate(CV_BDF, context);
  require(CVodeInit(memory, derivative, 0, y));
  require(CVodeSStolerances(memory, 0, allowed));
  require(CVodeSetUserData(memory, &problem));
  require(CVodeSetLinearSolver(memory, solver, matrix));
  require(CVodeSetJacFn(memory, jacobian));
  require(CVodeSetInitStep(memory, first_step));
  require(CVodeSetMaxNumSteps(memory, 1000000));
  require(CVodeSetStopTime(memory, seconds));
  std::vector<double> before(size);
  realtype t = 0;
  for (int flag = CV_SUCCESS; flag != CV_TSTOP_RETURN;) {
    before.assign(z, z + size);
    flag = CVode(memory, seconds, y, &t, CV_ONE_STEP);
    require(flag);
    equations.stepped(equations.context, before.data(), z);
  }
  Effort effort;
  long failed = 0;
  long unsolved = 0;
  require(CVodeGetNumSteps(memory, &effort.steps));
  require(CVodeGetNumErrTestFails(memory, &failed));
  require(CVodeGetNumNonlinSolvConvFails(memory, &unsolved));
  effort.rejected = failed + unsolved;
  CVodeFree(&memory);
  SUNLinSolFree(solver);
  SUNMatDestroy(matrix);
  N_VDestroy(y);
  return effort;
}

}  // namespace dampline::bench
