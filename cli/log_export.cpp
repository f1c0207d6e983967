#include <ostream>

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/rows.hpp>
#include <dampline/report/json.hpp>

#include "journal_file.hpp"
#include "journal_view.hpp"
#include "log_words.hpp"
#include "output_file.hpp"

namespace dampline::cli {
namespace {

std::string as_json(const std::vector<journal::Entry>& entries) {
  report::JsonWriter json;
  json.begin_object();
  json.member("format", "dampline-journal").member("version", 1);
  json.key("entries").begin_array();
  const auto& names = journal::columns();
  for (const auto& entry : entries) {
    json.begin_object(report::Layout::row);
    const auto cells = journal::row(entry);
    // The last column is for tables that have no place for keys of their own.
    for (std::size_t i = 0; i + 1 < cells.size(); ++i) {
      if (cells[i].empty()) continue;
      json.key(names[i]);
      if (cells[i].number) {
        json.value(*cells[i].number);
      } else {
        json.value(cells[i].text);
      }
    }
    if (!entry.others.empty()) {
      json.key("other").begin_object(report::Layout::row);
      for (const auto& other : entry.others) json.member(other.key, other.value);
      json.end_object();
    }
    json.end_object();
  }
  json.end_array().end_object();
  return json.take();
}

}  // namespace

int log_export(Arguments args, Streams io) {
  ViewWords words;
  std::optional<std::string> json;
  std::optional<std::string> csv;
  Options options({.command = "log export",
                   .purpose = "the entries as JSON or CSV",
                   .usage = "--json FILE | --csv FILE [OPTIONS]",
                   .examples = {"dampline log export --csv weighings.csv --kind weigh",
                                "dampline log export --json - --since 2026-03-01"}});
  options.text("json", json, "FILE", "write them as JSON; - writes to standard output")
      .text("csv", csv, "FILE",
            "write them as a table (RFC 4180), one row an entry; - writes to standard output");
  add_view_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  if (!json && !csv) {
    throw Failure(exit_status::usage, "neither --json nor --csv", "dampline log export --json -");
  }
  if (json == "-" && csv == "-") {
    throw Failure(exit_status::usage, "--json and --csv both to standard output",
                  "name a file for one of them");
  }
  const std::vector<std::string> inputs{journal_path(words.journal)};
  const auto entries = chosen(read_journal(words.journal, io), words);
  if (json) write_output(*json, as_json(entries), io, inputs);
  if (csv) {
    std::vector<const journal::Entry*> all;
    for (const auto& entry : entries) all.push_back(&entry);
    write_output(*csv, journal::csv(all), io, inputs);
  }
  return exit_status::done;
}

}  // namespace dampline::cli
