#include <dampline/stack/kernels.hpp>

// Compiled for AVX2 and FMA (lib/CMakeLists.txt), run only where the processor has them.
#if defined(__AVX2__) && defined(__FMA__)

#include <dampline/stack/kernel_step.hpp>

namespace dampline::stack::kernel {

const Calls* wide_256() {
  static constexpr Calls both[] = {Loops<double, Four>::calls("avx2"),
                                   Loops<Four, Four>::calls("avx2")};
  return both;
}

}  // namespace dampline::stack::kernel

#else

const dampline::stack::kernel::Calls* dampline::stack::kernel::wide_256() { return nullptr; }

#endif
