#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/journal/fields.hpp>
#include <dampline/units/parse.hpp>

/// The values of fields as text and back, one overload a type.
namespace dampline::journal {

[[nodiscard]] units::Parsed<std::string> read_value(const Label&, std::string_view, std::string*);
[[nodiscard]] units::Parsed<int> read_value(const Label&, std::string_view, int*);
[[nodiscard]] units::Parsed<double> read_value(const Label&, std::string_view, double*);
[[nodiscard]] units::Parsed<units::Mass> read_value(const Label&, std::string_view, units::Mass*);
[[nodiscard]] units::Parsed<units::Length> read_value(const Label&, std::string_view,
                                                      units::Length*);
[[nodiscard]] units::Parsed<units::Duration> read_value(const Label&, std::string_view,
                                                        units::Duration*);
[[nodiscard]] units::Parsed<units::Temperature> read_value(const Label&, std::string_view,
                                                           units::Temperature*);
[[nodiscard]] units::Parsed<units::RelativeHumidity> read_value(const Label&, std::string_view,
                                                                units::RelativeHumidity*);
/// The position of a word; "wet" will do for "too wet".
[[nodiscard]] units::Parsed<std::size_t> read_word(const Label&, std::string_view text,
                                                   const std::vector<std::string_view>& words);

template <class Enum>
requires std::is_enum_v<Enum> units::Parsed<Enum> read_value(const Label& label,
                                                             std::string_view text, Enum*) {
  const auto found = read_word(label, text, {Words<Enum>::all.begin(), Words<Enum>::all.end()});
  if (const auto* refusal = std::get_if<units::Refusal>(&found)) return *refusal;
  return static_cast<Enum>(std::get<std::size_t>(found));
}

/// A value as it is stored and shown, and as a number in the unit of tables.
struct Shown {
  std::string text;
  std::optional<double> number{};
  bool bare = false;
};
[[nodiscard]] Shown shown(const std::string& v);
[[nodiscard]] Shown shown(int v);
[[nodiscard]] Shown shown(double v);
[[nodiscard]] Shown shown(units::Mass v);
[[nodiscard]] Shown shown(units::Length v);
[[nodiscard]] Shown shown(units::Duration v);
[[nodiscard]] Shown shown(units::Temperature v);
[[nodiscard]] Shown shown(units::RelativeHumidity v);
template <class Enum>
requires std::is_enum_v<Enum> Shown shown(Enum v) {
  return {std::string(Words<Enum>::all.at(static_cast<std::size_t>(v)))};
}

template <class T>
inline constexpr std::string_view unit_of{};
template <>
inline constexpr std::string_view unit_of<units::Mass>{"g"};
template <>
inline constexpr std::string_view unit_of<units::Length>{"mm"};
template <>
inline constexpr std::string_view unit_of<units::Duration>{"minutes"};
template <>
inline constexpr std::string_view unit_of<units::Temperature>{"c"};
template <>
inline constexpr std::string_view unit_of<units::RelativeHumidity>{"percent"};

}  // namespace dampline::journal
