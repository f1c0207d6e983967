#include "methods_file.hpp"

#include <ostream>

#include <dampline/session/input_error.hpp>
#include <dampline/units/suggest.hpp>

#include "data_files.hpp"
#include "input_file.hpp"

namespace dampline::cli {
namespace {

std::optional<method::Book> read(const std::string& text, const std::string& name, Streams& io) {
  auto book = method::read_methods(text, name);
  if (auto* good = std::get_if<method::Book>(&book)) return std::move(*good);
  for (const auto& e : std::get<material::CatalogueErrors>(book)) {
    io.err << session::rendered({.file = e.file,
                                 .where = {e.line, e.column},
                                 .what = e.what,
                                 .excerpt = e.excerpt,
                                 .help = e.help});
  }
  return std::nullopt;
}

}  // namespace

std::optional<method::Book> load_methods(const std::optional<std::string>& own, Streams& io) {
  auto usual = read(read_data("methods.toml"), find_data("methods.toml").string(), io);
  if (!own || !usual) return usual;
  auto book = read(read_input(*own, io), input_name(*own), io);
  if (!book) return std::nullopt;
  return method::joined(std::move(*book), *usual);
}

const method::Method& method_named(const method::Book& book, const std::string& name) {
  if (const auto* found = method::find_method(book, name)) return *found;
  const auto near = method::similar_methods(book, name);
  std::vector<std::string> all;
  for (const auto& m : book.methods) all.push_back(m.name);
  throw Failure(
      exit_status::usage, "no method named \"" + name + "\"",
      near.empty() ? "one of " + units::listed(all) : "did you mean " + units::listed(near) + "?");
}

}  // namespace dampline::cli
