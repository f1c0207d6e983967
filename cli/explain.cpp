#include <algorithm>
#include <ostream>

#include <dampline/journal/kinds.hpp>
#include <dampline/session/keys.hpp>
#include <dampline/session/starter.hpp>
#include <dampline/units/suggest.hpp>

#include "options.hpp"
#include "schema.hpp"
#include "warning_words.hpp"

namespace dampline::cli {
namespace {

using session::Key;

// "plates.size" and "plates[].size" are the same to a person.
std::string plain(std::string_view path) {
  std::string out;
  for (const char c : path) {
    if (c != '[' && c != ']') out += c;
  }
  return out;
}

std::string last_name(std::string_view path) {
  return std::string(path.substr(path.find_last_of('.') + 1));
}

std::vector<const Key*> found(const std::string& word) {
  std::vector<const Key*> out;
  for (const auto& k : session::keys()) {
    if (plain(k.path) == plain(word) || plain(last_name(k.path)) == plain(word)) out.push_back(&k);
  }
  return out;
}

void show(const Key& k, std::ostream& out) {
  out << plain(k.path) << ": " << k.meaning << '\n';
  out << "  takes    " << session::expected(k) << '\n';
  const auto limits = session::limits(k);
  if (!limits.empty()) out << "  limits   " << limits << '\n';
  if (k.need == session::Need::required) out << "  needed   yes\n";
  if (!k.example.empty()) out << "  example  " << last_name(k.path) << " = " << k.example << '\n';
  const bool list = k.form == session::Form::tables;
  const auto inside = session::names_inside(std::string(k.path) + (list ? "[]" : ""));
  if (!inside.empty() && (list || k.form == session::Form::table)) {
    out << "  keys     " << units::listed(inside, "", "and") << '\n';
  }
}

// A warning of a plan by its code; false when there is none of that name.
bool show_warning(const std::string& word, std::ostream& out) {
  const auto all = warning_words();
  const auto it =
      std::find_if(all.begin(), all.end(), [&](const auto& w) { return w.code == word; });
  if (it == all.end()) return false;
  out << it->code << ": " << it->meaning << '\n';
  return true;
}

// What the journal means by the word: a kind of entry, or what one holds.
std::string of_the_journal(const std::string& word) {
  std::string out;
  for (const auto& kind : journal::kinds()) {
    const auto command = "dampline log " + std::string(kind.name);
    if (kind.name == word) {
      std::vector<std::string> holds;
      for (const auto& field : kind.fields) holds.emplace_back(field.name);
      out += command + ": " + std::string(kind.purpose) + "\n  holds    " +
             units::listed(holds, "", "and") + "\n  example  dampline log " +
             std::string(kind.example) + "\n";
    }
    for (const auto& field : kind.fields) {
      if (field.name != word) continue;
      const std::vector<std::string> words(field.words.begin(), field.words.end());
      out += word + " of " + command + ": " + std::string(field.help) +
             (words.empty() ? "" : "\n  one of   " + units::listed(words, "")) + "\n  example  " +
             std::string(field.example) + "\n";
    }
  }
  return out;
}

}  // namespace

int run_explain(Arguments args, Streams io) {
  std::optional<std::string> asked;
  bool schema = false;
  Options options({.command = "explain",
                   .purpose =
                       "a key of the session file (meaning, unit, range, default, example), a "
                       "warning of a plan, or a word of the journal",
                   .usage = "WORD | --schema",
                   .examples = {"dampline explain grain", "dampline explain plates.size",
                                "dampline explain register", "dampline explain prints-lost"}});
  options
      .optional_operand("WORD", asked, "a key, with or without its table, or the code of a warning")
      .flag("schema", schema, "every key, as a JSON Schema for editors");
  if (!options.parse(args, io)) return exit_status::done;
  if (schema) {
    io.out << session_schema();
    return exit_status::done;
  }
  if (!asked) throw Failure(exit_status::usage, "missing WORD", "dampline explain --help");
  const auto& word = *asked;
  const auto keys = found(word);
  const bool warned = show_warning(word, io.out);
  const auto logged = of_the_journal(word);
  if (keys.empty() && !warned && logged.empty()) {
    std::vector<std::string> names;
    for (const auto& w : warning_words()) names.emplace_back(w.code);
    for (const auto& k : session::keys()) {
      names.push_back(last_name(k.path));
      names.push_back(plain(k.path));
    }
    for (const auto& kind : journal::kinds()) {
      names.emplace_back(kind.name);
      for (const auto& field : kind.fields) names.emplace_back(field.name);
    }
    const auto near = units::nearest(word, names);
    throw Failure(exit_status::usage, "\"" + word + "\" is no key of a session file and no warning",
                  near ? "did you mean " + *near + "?" : "dampline new shows every key");
  }
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (i > 0 || warned) io.out << '\n';
    show(*keys[i], io.out);
  }
  if (!keys.empty() && !logged.empty()) io.out << '\n';
  io.out << logged;
  return exit_status::done;
}

}  // namespace dampline::cli
