#include <dampline/air/psychrometrics.hpp>
#include <dampline/journal/measured.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::journal {
namespace {

// Dry readings by sheet; sheets that have none, or no number, go by the mean of all.
class Dry {
 public:
  void add(const std::optional<int>& sheet, double value) {
    auto& mean = by_sheet_[sheet.value_or(0)];
    mean.sum += value;
    ++mean.count;
    all_.sum += value;
    ++all_.count;
  }
  [[nodiscard]] std::optional<double> of(const std::optional<int>& sheet) const {
    const auto it = by_sheet_.find(sheet.value_or(0));
    const auto& mean = it == by_sheet_.end() ? all_ : it->second;
    if (mean.count == 0) return std::nullopt;
    return mean.sum / mean.count;
  }

 private:
  struct Mean {
    double sum = 0;
    int count = 0;
  };
  std::map<int, Mean> by_sheet_;
  Mean all_;
};

}  // namespace

std::vector<Taken> weighings(const Held& held) {
  std::vector<Taken> out;
  Dry dry;
  for (const auto* entry : held.entries) {
    const auto* w = std::get_if<Weighing>(&entry->record);
    if (w == nullptr) continue;
    out.push_back({entry, w, std::nullopt});
    if (w->state == Weighing::When::dry) dry.add(w->sheet, units::in_grams(w->mass));
  }
  for (auto& taken : out) {
    const auto base = dry.of(taken.weighing->sheet);
    if (!base || taken.weighing->state == Weighing::When::dry) continue;
    taken.moisture = units::Moisture(units::in_grams(taken.weighing->mass) / *base - 1);
  }
  return out;
}

std::vector<Grown> lengths(const Held& held) {
  std::vector<Grown> out;
  std::map<Length::Direction, Dry> dry;
  for (const auto* entry : held.entries) {
    const auto* l = std::get_if<Length>(&entry->record);
    if (l == nullptr) continue;
    out.push_back({entry, l, std::nullopt});
    if (l->state == Length::When::dry) {
      dry[l->direction].add(l->sheet, units::in_millimetres(l->length));
    }
  }
  for (auto& grown : out) {
    const auto base = dry[grown.length->direction].of(grown.length->sheet);
    if (!base || grown.length->state == Length::When::dry) continue;
    grown.growth = units::Strain(units::in_millimetres(grown.length->length) / *base - 1);
  }
  return out;
}

std::optional<units::RelativeHumidity> humidity(const Air& air) {
  if (air.humidity || !air.temperature || !air.wet_bulb) return air.humidity;
  try {
    return air::state_from({.temperature = air.temperature, .wet_bulb = air.wet_bulb},
                           units::pascal(air::standard_atmosphere_si(0)))
        .humidity;
  } catch (const units::OutOfRange&) {
    return std::nullopt;  // drier than any air, or too cold to tell
  }
}

}  // namespace dampline::journal
