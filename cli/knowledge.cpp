#include "knowledge.hpp"

#include <string>

#include "command.hpp"
#include "data_files.hpp"
#include "exit_status.hpp"
#include "methods_file.hpp"

namespace dampline::cli {
namespace {

template <class Good>
Good usable(std::variant<Good, material::CatalogueErrors> read) {
  if (auto* errors = std::get_if<material::CatalogueErrors>(&read)) {
    const auto& e = errors->front();
    throw Failure(
        exit_status::bad_data,
        e.file + ":" + std::to_string(e.line) + ":" + std::to_string(e.column) + ": " + e.what,
        e.help);
  }
  return std::move(std::get<Good>(read));
}

std::string path_of(std::string_view name) { return find_data(name).string(); }

}  // namespace

std::optional<planner::Knowledge> read_knowledge(const std::optional<std::string>& own_methods,
                                                 Streams& io) try {
  planner::Knowledge k;
  auto methods = load_methods(own_methods, io);
  if (!methods) return std::nullopt;
  k.methods = std::move(*methods);
  k.catalogue = usable(material::read_catalogue(read_data("stocks.toml"), path_of("stocks.toml")));
  k.processes =
      usable(readiness::read_processes(read_data("processes.toml"), path_of("processes.toml")));
  k.craft = planner::read_craft(read_data("steps.toml"), path_of("steps.toml"));
  k.drying = planner::read_drying(read_data("drying.toml"), path_of("drying.toml"));
  k.cautions = planner::read_cautions(read_data("cautions.toml"), path_of("cautions.toml"));
  return k;
} catch (const planner::DataError& e) {
  throw Failure(exit_status::bad_data, e.what(), "`dampline paths` tells which file is in use");
}

}  // namespace dampline::cli
