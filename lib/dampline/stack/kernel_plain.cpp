#include <dampline/stack/kernel_step.hpp>
#include <dampline/stack/kernels.hpp>

namespace dampline::stack::kernel {

const Calls* plain() {
  static constexpr Calls both[] = {Loops<double, double>::calls("any"),
                                   Loops<Two, Two>::calls("any")};
  return both;
}

}  // namespace dampline::stack::kernel
