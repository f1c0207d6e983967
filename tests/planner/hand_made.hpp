#pragma once

#include <dampline/planner/craft.hpp>
#include <dampline/planner/treatment.hpp>
#include <dampline/session/session.hpp>

#include "support/reference_table.hpp"

/// A session and a treatment made by hand, so that the schedule is tested apart from reading and
/// physics.
namespace dampline::tests {

inline planner::Craft craft() {
  return planner::read_craft(repository_file("data/steps.toml"), "steps.toml");
}

inline session::Plate plate(const std::string& name, const std::string& process) {
  session::Plate p;
  p.name = name;
  p.size = {units::centimetres(20), units::centimetres(30)};
  p.process = process;
  p.ink = "oil";
  return p;
}

/// Half past nine to half past five with a break at one; one person, one press, a tub of eight.
inline session::Session solo_day() {
  session::Session s;
  s.day.zone = "Europe/Lisbon";
  s.day.date = {std::chrono::year(2026), std::chrono::month(3), std::chrono::day(14)};
  s.day.from = std::chrono::hours(9) + std::chrono::minutes(30);
  s.day.until = std::chrono::hours(17) + std::chrono::minutes(30);
  s.day.breaks = {{std::chrono::hours(13), units::minutes(40)}};
  s.people.resize(1);
  s.people[0].name = "A";
  s.equipment.presses.resize(1);
  s.equipment.presses[0].name = "press";
  s.equipment.tub = session::Tub{8, units::celsius(18)};
  s.equipment.blotters = 20;
  s.equipment.hot_plate = true;
  s.equipment.drying_places = 16;
  s.paper.sheet = {units::centimetres(38), units::centimetres(56)};
  s.paper.sheets = 14;
  s.plates = {plate("tone", "aquatint"), plate("key", "etching")};
  s.edition.prints = 3;
  s.edition.proofs = 1;
  s.edition.order = {"tone", "key"};
  return s;
}

/// Half an hour in the tub, two blots, printable from half an hour to four hours after.
inline planner::Treatment soaked() {
  planner::Treatment t;
  t.in_tub = true;
  t.soak = planner::HalfMinutes(60);
  t.soak_most = planner::HalfMinutes(240);
  t.blots = 2;
  t.opens = planner::HalfMinutes(60);
  t.closes = planner::HalfMinutes(480);
  return t;
}

}  // namespace dampline::tests
