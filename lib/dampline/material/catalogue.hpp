#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/material/faults.hpp>
#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

/// The stocks a session can name, and the classes that fill in what a description leaves out.
namespace dampline::material {

/// What the way of sizing says of a sheet that nobody has measured.
struct SizingClass {
  Sizing sizing = Sizing::internal;
  Ranged<units::Grammage> cobb60;
  Ranged<units::Moisture> accessible;
  Ranged<double> swelling;
  Ranged<units::Diffusivity> vapour;
  Ranged<units::Duration> wetting_delay;
};
struct MakingClass {
  Making making = Making::mould;
  Ranged<units::Density> density;  ///< apparent, dry
  Ranged<double> pore_ratio;
};
struct FurnishClass {
  Furnish furnish = Furnish::cotton;
  Ranged<double> isotherm_scale;
  Ranged<units::Moisture> fibre_full;
};
/// Growth by making and furnish together.
struct GrowthClass {
  std::string name;
  std::vector<Making> makings;
  std::vector<Furnish> furnishes;
  Growth along;
  Growth across;
};
struct Classes {
  std::vector<SizingClass> sizings;
  std::vector<MakingClass> makings;
  std::vector<FurnishClass> furnishes;
  std::vector<GrowthClass> growths;
};

struct Catalogue {
  std::vector<Stock> stocks;  ///< in file order
  Classes classes;
};

/// Reads the text of a stocks file (TOML, at most 256 KiB). `file` only names it in the errors.
[[nodiscard]] std::variant<Catalogue, CatalogueErrors> read_catalogue(std::string_view text,
                                                                      std::string_view file);

/// The stock of that name (capitals and spacing do not matter), or null.
[[nodiscard]] const Stock* find_stock(const Catalogue& catalogue, std::string_view name);
/// Up to `most` names that look like `name`, nearest first; empty when none does.
[[nodiscard]] std::vector<std::string> similar_names(const Catalogue& catalogue,
                                                     std::string_view name, std::size_t most = 3);

/// A paper as a session describes it. With `base` set, what is given here replaces what the base
/// stock says.
struct Description {
  const Stock* base = nullptr;
  std::optional<units::Grammage> grammage{};
  std::optional<units::Length> thickness{};
  std::optional<units::Grammage> cobb60{};
  std::optional<Furnish> furnish{};
  std::optional<Making> making{};
  std::optional<Sizing> sizing{};
};
struct Described {
  Stock stock;
  std::vector<std::string> defaults_used;  ///< "thickness 0.55 mm, from the density of ..."
};
/// What is wrong with a description: one sentence and a remedy.
struct DescriptionError {
  std::string what;
  std::string help;
};

/// A stock from a description, the classes filling in the rest.
///
/// Range   grammage 5-2000 g/m2, thickness 0.01-10 mm, density 0.05-1.4 g/cm3, Cobb 5-1000 g/m2.
[[nodiscard]] std::variant<Described, DescriptionError> describe(const Catalogue& catalogue,
                                                                 const Description& description);

/// The words of the file formats and of people: "cotton", "mould", "internal", ...
[[nodiscard]] std::string_view word(Kind k);
[[nodiscard]] std::string_view word(Furnish f);
[[nodiscard]] std::string_view word(Making m);
[[nodiscard]] std::string_view word(Sizing s);
[[nodiscard]] std::optional<Kind> kind_from(std::string_view word);
[[nodiscard]] std::optional<Furnish> furnish_from(std::string_view word);
[[nodiscard]] std::optional<Making> making_from(std::string_view word);
[[nodiscard]] std::optional<Sizing> sizing_from(std::string_view word);

}  // namespace dampline::material
