#include "session_file.hpp"

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <ostream>

#include <dampline/session/zone.hpp>

#include "input_file.hpp"
#include "readings_file.hpp"

namespace dampline::cli {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

std::string zone_of_process() {
  auto stated = environment("TZ");
  if (stated.starts_with(':')) stated.erase(0, 1);
  return session::is_zone(stated) ? stated : session::zone_of_system();
}

}  // namespace

std::chrono::sys_seconds now_of_process() {
  const auto stated = environment("SOURCE_DATE_EPOCH");
  long long seconds = 0;
  const auto got = std::from_chars(stated.data(), stated.data() + stated.size(), seconds);
  const bool whole = got.ec == std::errc() && got.ptr == stated.data() + stated.size();
  // Up to the year 2200, as far as session files go.
  constexpr long long last = 7258118400;
  if (whole && seconds >= 0 && seconds < last) {
    return std::chrono::sys_seconds(std::chrono::seconds(seconds));
  }
  return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

session::Here here_of_process() {
  const auto zone = zone_of_process();
  return {.today = session::date_at(zone, now_of_process()), .zone = zone};
}

void print_errors(const session::InputErrors& errors, Streams& io) {
  for (const auto& e : errors) io.err << rendered(e) << '\n';
  io.err << errors.size() << (errors.size() == 1 ? " error\n" : " errors\n");
}

void print_warnings(const session::InputErrors& warnings, Streams& io) {
  for (const auto& w : warnings) io.err << rendered(w, "warning") << '\n';
}

session::Session read_session(const std::string& path, Streams& io) {
  const auto text = read_input(path, io);
  auto found = session::read(text, input_name(path), here_of_process());
  if (const auto* errors = std::get_if<session::InputErrors>(&found)) {
    print_errors(*errors, io);
    throw Failure(exit_status::bad_data, "");
  }
  auto& s = std::get<session::Session>(found);
  print_warnings(s.warnings, io);
  add_readings(s, path, io);
  return std::move(s);
}

}  // namespace dampline::cli
