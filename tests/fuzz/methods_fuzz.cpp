#include <cstddef>
#include <cstdint>
#include <string_view>
#include <variant>

#include <dampline/method/book.hpp>

#include "claim.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using dampline::tests::claim;
  namespace method = dampline::method;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto result = method::read_methods(text, "fuzz.toml");
  if (const auto* errors = std::get_if<dampline::material::CatalogueErrors>(&result)) {
    claim(!errors->empty(), "a refused file says why");
    for (const auto& error : *errors) {
      claim(!error.what.empty() && !error.help.empty(), "an error says what and how to mend it");
    }
    return 0;
  }
  for (const auto& m : std::get<method::Book>(result).methods) {
    claim(!m.name.empty() && !m.stages.empty(), "a method has a name and stages");
    for (const auto& s : method::stages_for(m, {})) {
      const auto layout = method::layout_of(s);
      const auto again = method::parse_layout(method::text(layout));
      claim(std::holds_alternative<method::Layout>(again), "a stack reads as it is written");
    }
  }
  return 0;
}
