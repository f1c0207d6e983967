#include <dampline/planner/plan.hpp>

namespace dampline::planner {

double gap_percent(const Plan& plan) {
  if (plan.proved || plan.finish <= HalfMinutes(0) || plan.bound_finish >= plan.finish) return 0;
  return 100.0 * (plan.finish - plan.bound_finish).count() / plan.finish.count();
}

}  // namespace dampline::planner
