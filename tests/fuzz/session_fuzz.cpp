#include <cstddef>
#include <cstdint>
#include <string_view>
#include <variant>

#include <dampline/session/read.hpp>

#include "claim.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using dampline::tests::claim;
  namespace session = dampline::session;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto result = session::read(text, "fuzz.toml");
  const auto* errors = std::get_if<session::InputErrors>(&result);
  if (errors == nullptr) {
    const auto& read = std::get<session::Session>(result);
    claim(!read.plates.empty() && read.paper.sheets >= 0 && read.edition.prints > 0,
          "a session that is accepted has plates and prints; sheets may go unstated, as 0");
    return 0;
  }
  claim(!errors->empty(), "a refused session says why");
  int last = 0;
  for (const auto& error : *errors) {
    claim(!error.what.empty() && !error.help.empty(), "an error says what and how to mend it");
    claim(error.where.line == 0 || error.where.line >= last, "errors come in file order");
    if (error.where.line > 0) last = error.where.line;
    claim(!session::rendered(error).empty(), "an error can be shown");
  }
  return 0;
}
