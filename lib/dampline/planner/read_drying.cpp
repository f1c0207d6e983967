#include <toml++/toml.h>

#include <dampline/planner/craft.hpp>
#include <dampline/planner/drying_rules.hpp>
#include <dampline/session/clock_time.hpp>

namespace dampline::planner {
namespace {

[[noreturn]] void fail(std::string_view file, const toml::source_region& where,
                       const std::string& what) {
  throw DataError(std::string(file) + ":" + std::to_string(where.begin.line) + ":" +
                  std::to_string(where.begin.column) + ": " + what +
                  "; reinstall the data files or mend this one");
}

struct Reader {
  std::string_view file;

  [[nodiscard]] units::Duration duration(const toml::node* node,
                                         const toml::source_region& where) const {
    const auto written =
        node == nullptr ? std::optional<std::string>() : node->value<std::string>();
    const auto read = units::parse_duration(written.value_or(""));
    if (!units::ok(read)) fail(file, where, "a duration was expected");
    return std::get<units::Duration>(read);
  }

  [[nodiscard]] const toml::table& table(const toml::table& in, std::string_view key) const {
    const auto* found = in[key].as_table();
    if (found == nullptr) fail(file, in.source(), "no table \"" + std::string(key) + "\" here");
    return *found;
  }

  [[nodiscard]] LaterRange range(const toml::table& t) const {
    LaterRange out;
    out.least = duration(t.get("least"), t.source());
    out.usual = duration(t.get("usual"), t.source());
    out.most = duration(t.get("most"), t.source());
    if (out.usual < out.least || out.most < out.usual) {
      fail(file, t.source(), "times must rise: least, usual, most");
    }
    if (t.contains("dry_and")) out.dry_and = duration(t.get("dry_and"), t.source());
    if (t.contains("flatten_from")) {
      out.flatten_from = duration(t.get("flatten_from"), t.source());
    }
    out.what = t["what"].value_or(std::string());
    if (out.what.empty()) fail(file, t.source(), "no text \"what\" here");
    return out;
  }
};

toml::table parsed(std::string_view text, std::string_view file) {
  try {
    return toml::parse(text, file);
  } catch (const toml::parse_error& e) {
    fail(file, e.source(), std::string(e.description()));
  }
}

}  // namespace

DryingRules read_drying(std::string_view text, std::string_view file) {
  const auto document = parsed(text, file);
  const Reader read{file};
  DryingRules out;
  out.basis = document["basis"].value_or(std::string());
  if (out.basis.empty()) fail(file, document.source(), "no text \"basis\" here");
  const auto& blotters = read.table(document, "blotters");
  if (const auto* changes = blotters["changes"].as_array()) {
    for (const auto& each : *changes) out.changes.push_back(read.duration(&each, each.source()));
  }
  if (out.changes.empty()) fail(file, blotters.source(), "no list \"changes\" here");
  out.then_every = read.duration(blotters.get("then_every"), blotters.source());
  out.most = read.duration(blotters.get("most"), blotters.source());
  const auto& flat = read.table(document, "flat");
  for (const char* way : {"boards", "tape", "rack", "line"}) {
    out.flat[way] = read.range(read.table(flat, way));
  }
  out.ink = read.range(read.table(read.table(document, "ink"), "touch"));
  out.stack = read.range(read.table(read.table(document, "stack"), "tissue"));
  for (const auto& [way, list] : read.table(document, "look")) {
    const auto* all = list.as_array();
    if (all == nullptr) fail(file, list.source(), "a list of things to do was expected");
    for (const auto& each : *all) {
      const auto* look = each.as_table();
      if (look == nullptr) fail(file, each.source(), "each needs \"at\" and \"what\"");
      auto what = (*look)["what"].value_or(std::string());
      if (what.empty()) fail(file, each.source(), "no text \"what\" here");
      out.looks[std::string(way.str())].push_back(
          {read.duration(look->get("at"), each.source()), std::move(what)});
    }
  }
  const auto& night = read.table(document, "night");
  const auto clock = [&](const char* key) {
    const auto time = session::clock_time_from(night[key].value_or(std::string()));
    if (!time) fail(file, night.source(), "a clock time like \"22:00\" was expected");
    return *time;
  };
  out.night = {clock("from"), clock("until")};
  if (out.night.until >= out.night.from) {
    fail(file, night.source(), "a night begins before midnight and ends after it");
  }
  return out;
}

}  // namespace dampline::planner
