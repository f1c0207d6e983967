#pragma once

#include <string>
#include <variant>

#include <dampline/material/catalogue.hpp>

/// Filling a stock from the classes: shared by the reader and by describe().
namespace dampline::material {

/// Copies the numbers of one class into a stock. False when the catalogue has no such class.
[[nodiscard]] bool take_sizing(Stock& stock, const Classes& classes);
[[nodiscard]] bool take_making(Stock& stock, const Classes& classes);
[[nodiscard]] bool take_furnish(Stock& stock, const Classes& classes);
/// By making and furnish: the first growth class that names both.
[[nodiscard]] const GrowthClass* growth_of(const Stock& stock, const Classes& classes);
[[nodiscard]] bool take_growth(Stock& stock, const Classes& classes);

/// Thickness from the grammage and the apparent density of the making, with the density's range.
[[nodiscard]] bool take_thickness(Stock& stock, const Classes& classes);

/// What no paper could be, or an empty text: bounds of a whole stock.
[[nodiscard]] std::string impossible(const Stock& stock);

}  // namespace dampline::material
