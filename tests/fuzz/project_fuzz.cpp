#include <cstddef>
#include <cstdint>
#include <string_view>

#include <dampline/scheduling/read.hpp>

namespace {

using dampline::scheduling::Problem;

void attempt(Problem (*read)(std::string_view), std::string_view text) {
  try {
    (void)read(text);
  } catch (const dampline::scheduling::ReadError&) {  // the one way to refuse; any other ends here
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  attempt(dampline::scheduling::read_sch, text);
  attempt(dampline::scheduling::read_sm, text);
  return 0;
}
