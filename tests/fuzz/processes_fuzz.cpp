#include <cstddef>
#include <cstdint>
#include <string_view>
#include <variant>

#include <dampline/readiness/band.hpp>

#include "claim.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using dampline::tests::claim;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto result = dampline::readiness::read_processes(text, "fuzz.toml");
  if (const auto* errors = std::get_if<dampline::material::CatalogueErrors>(&result)) {
    claim(!errors->empty(), "a refused file says why");
    for (const auto& error : *errors) {
      claim(!error.what.empty() && !error.help.empty(), "an error says what and how to mend it");
    }
  }
  return 0;
}
