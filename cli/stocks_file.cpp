#include "stocks_file.hpp"

#include <ostream>

#include <dampline/session/input_error.hpp>
#include <dampline/units/suggest.hpp>

#include "data_files.hpp"
#include "input_file.hpp"

namespace dampline::cli {

std::optional<material::Catalogue> load_stocks(const std::optional<std::string>& path,
                                               Streams& io) {
  const std::string name = path ? input_name(*path) : find_data("stocks.toml").string();
  const std::string text = path ? read_input(*path, io) : read_data("stocks.toml");
  auto read = material::read_catalogue(text, name);
  if (auto* catalogue = std::get_if<material::Catalogue>(&read)) return std::move(*catalogue);
  for (const auto& e : std::get<material::CatalogueErrors>(read)) {
    io.err << session::rendered({.file = e.file,
                                 .where = {e.line, e.column},
                                 .what = e.what,
                                 .excerpt = e.excerpt,
                                 .help = e.help});
  }
  return std::nullopt;
}

const material::Stock& stock_named(const material::Catalogue& catalogue, const std::string& name) {
  const auto* stock = material::find_stock(catalogue, name);
  if (stock != nullptr) return *stock;
  const auto near = material::similar_names(catalogue, name);
  throw Failure(exit_status::usage, "no stock named \"" + name + "\"",
                near.empty() ? "dampline papers lists the stocks"
                             : "did you mean " + units::listed(near) + "?");
}

}  // namespace dampline::cli
