#include <ostream>

#include <dampline/report/plan_html.hpp>
#include <dampline/report/plan_ics.hpp>

#include "knowledge.hpp"
#include "options.hpp"
#include "page_server.hpp"
#include "plan_outputs.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

std::string shown_address(const std::string& address) {
  return address.find(':') == std::string::npos ? address : "[" + address + "]";
}

}  // namespace

int run_serve(Arguments args, Streams io) {
  PlanWords words;
  std::optional<std::string> address;
  int port = 8017;
  Options options({.command = "serve",
                   .purpose = "show the step sheet to tablets on the local network, whose browsers "
                              "refuse scripts in files of their own; read-only",
                   .usage = "FILE [OPTIONS]",
                   .examples = {"dampline serve my-day.toml",
                                "dampline serve my-day.toml --address 192.168.1.20"}});
  options.operand("FILE", words.path, "session file; - reads standard input")
      .text("address", address, "ADDRESS",
            "of this computer, on which to show it: without one nobody else can see it "
            "(default 127.0.0.1); 0.0.0.0: on every network it is in")
      .whole("port", port, 0, 65535, "0: any that is free");
  add_work_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  const auto session = read_session(words.path, io);
  const auto knowledge = read_knowledge(words.methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto day = worked_day(session, *knowledge, words, io);
  if (!day) return exit_status::bad_data;
  const auto calendar = report::plan_calendar(day->plan, clock_of(session), revised_at(words.path));
  const std::string at = address.value_or("127.0.0.1");
  PageServer server(
      {{"/", "text/html; charset=utf-8", report::plan_html(view_of(day->plan, session))},
       {"/day.ics", "text/calendar; charset=utf-8", report::ics(calendar)}},
      at);
  const int bound = server.bind(port);
  if (bound == 0) {
    throw Failure(exit_status::cannot_create,
                  "cannot listen on " + at + ", port " + std::to_string(port),
                  "name an address of this computer, or another --port (0: any that is free)");
  }
  const std::string url = "http://" + shown_address(at) + ":" + std::to_string(bound) + "/";
  const bool whole = server.run([&] {
    io.out << "The step sheet: " << url << "\nThe calendar:   " << url << "day.ics\n"
           << "Stop with Ctrl-C.\n"
           << std::flush;
    if (!is_loopback(at)) {
      io.err << "warning: everybody on that network can read it; nobody can change it\n";
    }
  });
  if (!whole) throw Failure(exit_status::io_failed, "listening broke off", "start it again");
  return exit_status::done;
}

}  // namespace dampline::cli
