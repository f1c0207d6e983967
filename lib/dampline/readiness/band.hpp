#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/material/catalogue.hpp>
#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

namespace dampline::readiness {

/// What damp a process wants: the limits within which a sheet is printable. Levels and numbers are
/// common practice, no published source; ranges say where other printers put each bound.
struct Band {
  std::string process;            ///< "etching"
  std::vector<std::string> also;  ///< other words for it
  int level = 3;                  ///< 0 dry, 1 barely damp, 2 evenly damp, 3 damp and limp, 4 wet
  material::Ranged<units::Moisture> low;  ///< of the sheet's mean moisture
  material::Ranged<units::Moisture> best;
  material::Ranged<units::Moisture> high;
  material::Ranged<units::Moisture> driest;  ///< the driest place must be above this: soft through
  material::Ranged<units::Moisture> spread;  ///< wettest less driest must be below this: even
  material::Ranged<double> surface{};        ///< a face below this share of saturation: no shine
  std::string note;
  std::string basis;
};

struct Processes {
  std::vector<Band> bands;                      ///< in file order
  material::Ranged<units::Moisture> water_ink;  ///< ceiling on the mean with water-based ink
  std::string water_ink_note;
};

/// Reads the text of a processes file (TOML, at most 256 KiB). Every fault is reported, in file
/// order; `file` only names it.
[[nodiscard]] std::variant<Processes, material::CatalogueErrors> read_processes(
    std::string_view text, std::string_view file);

/// The band of a process by its name or another word for it, or null.
[[nodiscard]] const Band* find_band(const Processes& processes, std::string_view process);
/// The band with the ceiling for water-based ink put on it.
[[nodiscard]] Band with_water_ink(Band band, const Processes& processes);

}  // namespace dampline::readiness
