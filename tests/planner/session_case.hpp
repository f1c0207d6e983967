#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <variant>

#include <dampline/planner/climate.hpp>
#include <dampline/planner/damping.hpp>
#include <dampline/planner/look_up.hpp>
#include <dampline/planner/paper_case.hpp>
#include <dampline/session/read.hpp>

#include "support/reference_table.hpp"

/// A session file as the scheduler meets it: the paper's window found, nothing scheduled yet.
namespace dampline::tests {

template <class Good, class Bad>
Good good(std::variant<Good, Bad> read, const std::string& what) {
  if (auto* value = std::get_if<Good>(&read)) return std::move(*value);
  throw std::runtime_error(what + " cannot be used");
}

inline planner::Knowledge knowledge() {
  planner::Knowledge k;
  const auto text = [](const std::string& name) { return repository_file("data/" + name); };
  k.catalogue = good(material::read_catalogue(text("stocks.toml"), "stocks"), "stocks");
  k.processes = good(readiness::read_processes(text("processes.toml"), "processes"), "processes");
  k.craft = planner::read_craft(text("steps.toml"), "steps");
  k.drying = planner::read_drying(text("drying.toml"), "drying");
  return k;
}

struct SessionCase {
  session::Session session;
  planner::Craft craft;
  planner::Treatment treatment;
};

inline SessionCase session_case(const std::string& file) {
  const auto k = knowledge();
  SessionCase c;
  c.session = good(session::read(repository_file(file), file), file);
  c.craft = k.craft;
  const auto subject = good(planner::look_up(c.session, k), file);
  const auto air = good(planner::studio_air(c.session, k.craft.evening), file);
  const auto paper = planner::paper_case(c.session, k, subject, air, {});
  c.treatment = planner::choose_damping(c.session, paper).treatment;
  return c;
}

}  // namespace dampline::tests
