#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <variant>

#include <dampline/session/readings.hpp>

#include "claim.hpp"

namespace {

using dampline::tests::claim;
namespace session = dampline::session;
namespace units = dampline::units;

void judge(const session::InputError& e) {
  claim(!e.what.empty() && !e.help.empty(), "a message says what and how to mend it");
  claim(!session::rendered(e).empty(), "a message can be shown");
}

void judge(const session::Readings& r) {
  claim(!r.rows.empty(), "a log that is accepted has a reading");
  for (std::size_t i = 0; i < r.rows.size(); ++i) {
    const double celsius = units::in_celsius(r.rows[i].temperature);
    const double share = r.rows[i].humidity.parts_of_one();
    claim(celsius >= -40.001 && celsius <= 80.001, "temperatures are in range");
    claim(share >= 0 && share <= 1, "humidities are in range");
    claim(i == 0 || r.rows[i - 1].at < r.rows[i].at, "readings rise in time");
  }
  for (const auto& gap : r.gaps) claim(gap.from < gap.until, "a gap has a length");
  for (const auto& rows : r.left_out) {
    claim(rows.count > 0 && !rows.lines.empty(), "rows left out have lines");
  }
  for (const auto& w : r.warnings) judge(w);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace std::chrono_literals;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto result =
      session::read_readings(text, "fuzz.csv", {.zone = "Europe/Lisbon", .day = 2026y / 10 / 25});
  if (const auto* errors = std::get_if<session::InputErrors>(&result)) {
    claim(errors->size() == 1, "a refused log has one error");
    judge(errors->front());
  } else {
    judge(std::get<session::Readings>(result));
  }
  return 0;
}
