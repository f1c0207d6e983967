#include <dampline/stack/kernels.hpp>

// Compiled for AVX-512 F, DQ and VL (lib/CMakeLists.txt), run only where the processor has them.
#if defined(__AVX512F__) && defined(__AVX512DQ__)

#include <dampline/stack/kernel_step.hpp>

namespace dampline::stack::kernel {

const Calls* wide_512() {
  static constexpr Calls both[] = {Loops<double, Eight>::calls("avx512"),
                                   Loops<Eight, Eight>::calls("avx512")};
  return both;
}

}  // namespace dampline::stack::kernel

#else

const dampline::stack::kernel::Calls* dampline::stack::kernel::wide_512() { return nullptr; }

#endif
