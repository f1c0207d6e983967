#include "sheet_notes.hpp"

#include <cmath>
#include <optional>

#include <dampline/material/isotherm.hpp>
#include <dampline/readiness/limits.hpp>
#include <dampline/units/text.hpp>

namespace dampline::cli {
namespace {

std::string time_text(units::Duration t) {
  const double hours = units::in_hours(t);
  if (hours >= 96) return units::shortest(std::round(hours / 24)) + " days";
  if (hours >= 2) return units::shortest(std::round(hours)) + " h";
  return units::text(units::minutes(std::round(units::in_minutes(t))));
}

std::string keeping_note(const SheetAnswer& a) {
  using readiness::Store;
  const auto room = a.climate.temperature;
  const auto covered = readiness::keeps(Store::covered, room);
  std::string text = "Damp paper keeps about " + time_text(covered.longest) + " under cover at " +
                     units::text(room) + " (" + covered.why + "), " +
                     time_text(readiness::keeps(Store::refrigerator, room).longest) +
                     " in a refrigerator, " +
                     time_text(readiness::keeps(Store::freezer, room).longest) + " frozen (" +
                     readiness::keeps(Store::freezer, room).why + ").";
  if (a.curve.empty()) return text;
  const auto mean = a.curve.back().sample.mean;
  const auto activity =
      material::equilibrium_humidity(a.stock, mean, room, material::Branch::desorption)
          .parts_of_one();
  const auto mould = readiness::mould_likely_after(room, activity);
  return text + (mould ? " By the growth law mould is likely after " + time_text(*mould) + "."
                       : " This dry, mould does not grow.");
}

std::optional<std::string> curl_note(const SheetAnswer& a) {
  const SheetMoment* worst = nullptr;
  const SheetMoment* last = nullptr;
  for (const auto& m : a.curve) {
    if (m.curl.edges == size::Edges::flat) continue;
    if (worst == nullptr || m.curl.radius < worst->curl.radius) worst = &m;
    last = &m;
  }
  if (worst == nullptr) return std::nullopt;
  std::string text = "Wetter on one face it curls: " + size::text(worst->curl) + " (rough) after " +
                     time_text(worst->sample.at);
  if (last != &a.curve.back()) text += ", flat again after " + time_text(last->sample.at);
  return text + ".";
}

}  // namespace

std::vector<std::string> notes_on(const SheetAnswer& a) {
  std::vector<std::string> notes;
  if (!a.drying) notes.push_back(keeping_note(a));
  if (auto curl = curl_note(a)) notes.push_back(std::move(*curl));
  return notes;
}

}  // namespace dampline::cli
