#include <algorithm>
#include <cmath>

#include <dampline/stack/outcome.hpp>

namespace dampline::stack::kernel {

Outcome outcome_of(Stack& stack, const System& k, const Walk& walk, double before, int lane) {
  put_back(stack, k, k.y, lane);
  const double after = water(stack);
  Outcome o;
  o.steps = walk.taken;
  o.rejected = walk.rejected;
  o.stopped = walk.stopped();
  o.seconds = walk.time();
  o.out_left = k.y[k.out_at(0) * k.lanes + lane];
  o.out_right = k.y[k.out_at(1) * k.lanes + lane];
  const double moved = std::abs(o.out_left) + std::abs(o.out_right);
  o.balance_error =
      std::abs(after + o.out_left + o.out_right - before) / std::max({before, after, moved, 1e-12});
  return o;
}

}  // namespace dampline::stack::kernel
