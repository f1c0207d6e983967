#include <algorithm>
#include <array>
#include <ostream>

#include <dampline/units/suggest.hpp>

#include "log_words.hpp"
#include "options.hpp"

namespace dampline::cli {
namespace {

struct Word {
  std::string_view name;
  std::string_view purpose;
  int (*run)(Arguments, Streams);
};

constexpr std::array<Word, 5> readers{
    {{"list", "the entries, by session", log_list},
     {"card", "the record card of a session", log_card},
     {"compare", "two days side by side: only what differs, the largest first", log_compare},
     {"export", "the entries as JSON or CSV", log_export},
     {"import", "steps done, from a list that the page of a plan wrote", log_import}}};

void line(std::ostream& out, std::string_view name, std::string_view purpose) {
  std::string text = "  " + std::string(name);
  text.resize(12, ' ');
  out << text << purpose << '\n';
}

void words(std::ostream& out) {
  out << "\nto write down\n";
  for (const auto& kind : journal::kinds()) line(out, kind.name, kind.purpose);
  out << "\nto look up\n";
  for (const auto& word : readers) line(out, word.name, word.purpose);
}

Failure unknown(const std::string& word) {
  if (word.starts_with('-')) {
    return {exit_status::usage, word + " before the word that says what to log",
            "put the options behind it: dampline log note TEXT " + word + " ..."};
  }
  std::vector<std::string> names;
  for (const auto& kind : journal::kinds()) names.emplace_back(kind.name);
  for (const auto& reader : readers) names.emplace_back(reader.name);
  const auto near = units::nearest(word, names);
  return {exit_status::usage, "\"" + word + "\" is nothing that can be logged",
          near ? "did you mean " + *near + "?" : "the words are " + units::listed(names, "")};
}

}  // namespace

std::vector<std::string> log_words() {
  std::vector<std::string> out;
  for (const auto& kind : journal::kinds()) out.emplace_back(kind.name);
  for (const auto& word : readers) out.emplace_back(word.name);
  return out;
}

int run_log(Arguments args, Streams io) {
  std::string word;
  std::vector<std::string> rest;
  Options options(
      {.command = "log",
       .purpose = "write down what was done and measured; record cards; two days compared",
       .usage = "WORD ... [OPTIONS]",
       .examples = {"dampline log weigh blotted 64.2 g --sheet 3 --session my-day.toml",
                    "dampline log print 4 spoiled --why \"creased at the tail\"",
                    "dampline log compare 2026-03-09 2026-03-12"}});
  options.operand("WORD", word, "what to log or look up; dampline log WORD --help says more")
      .operands("...", rest, "the words and options of that");
  if (args.empty()) {
    words(io.err);
    throw Failure(exit_status::usage, "missing WORD: what to log or look up",
                  "dampline log --help");
  }
  if (args[0] == "-h" || args[0] == "--help") {
    (void)options.parse(args.first(1), io);
    words(io.out);
    return exit_status::done;
  }
  if (const auto* kind = journal::find_kind(args[0])) return log_entry(*kind, args.subspan(1), io);
  const auto reader = std::find_if(readers.begin(), readers.end(),
                                   [&](const Word& w) { return w.name == args[0]; });
  if (reader == readers.end()) throw unknown(args[0]);
  return reader->run(args.subspan(1), io);
}

}  // namespace dampline::cli
