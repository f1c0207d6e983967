#include "readings_file.hpp"

#include <filesystem>

#include <dampline/session/zone.hpp>

#include "input_file.hpp"
#include "session_file.hpp"

namespace dampline::cli {

session::Readings read_log(const std::string& path, const session::ReadingsOptions& options,
                           Streams& io) {
  const auto text = read_input(path, io, session::largest_log);
  auto found = session::read_readings(text, input_name(path), options);
  if (const auto* errors = std::get_if<session::InputErrors>(&found)) {
    print_errors(*errors, io);
    throw Failure(exit_status::bad_data, "");
  }
  auto& readings = std::get<session::Readings>(found);
  print_warnings(readings.warnings, io);
  return std::move(readings);
}

void add_readings(session::Session& s, const std::string& session_path, Streams& io) {
  if (!s.studio.readings) return;
  const std::filesystem::path named(*s.studio.readings);
  const auto folder = session_path == "-" ? std::filesystem::path()
                                          : std::filesystem::path(session_path).parent_path();
  const auto path = (folder / named).string();  // an absolute name stays as it is
  if (path == "-") {
    throw Failure(exit_status::bad_data, "studio.readings names no file",
                  "write the name of the log: readings = \"hygrometer.csv\"");
  }
  try {
    s.studio.log = read_log(path, {.zone = s.studio.readings_zone, .day = s.day.date}, io);
  } catch (const Failure& e) {
    if (e.status() != exit_status::no_input) throw;
    auto error = session::at(s.file, s.text, s.studio.where_readings,
                             "studio.readings: " + std::string(e.what()), e.help());
    print_errors({error}, io);
    throw Failure(exit_status::no_input, "");
  }
}

std::string log_zone(const std::optional<std::string>& asked) {
  if (!asked) return here_of_process().zone;
  if (session::is_zone(*asked)) return *asked;
  const auto near = session::nearest_zone(*asked);
  throw Failure(exit_status::usage, "\"" + *asked + "\" is no time zone that is known",
                near ? "did you mean " + *near + "?"
                     : "zones are named by continent and city, like Europe/Lisbon");
}

}  // namespace dampline::cli
