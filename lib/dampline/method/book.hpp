#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/material/catalogue.hpp>
#include <dampline/material/stock.hpp>
#include <dampline/method/stage.hpp>

/// The book of methods: data/methods.toml and files like it. docs/methods.md explains every word.
namespace dampline::method {

enum class Purpose { damping, drying };

inline constexpr std::size_t sizings = 5;

/// A stage as written. Times may go by the paper's sizing.
struct StageRule {
  Stage stage;
  std::array<units::Duration, sizings> duration{};  ///< by material::Sizing
  std::string basis;
};

struct Method {
  std::string name;
  std::vector<std::string> also;  ///< other words for it
  Purpose purpose = Purpose::damping;
  std::string remark;
  std::string basis;
  std::vector<StageRule> stages;
};

struct Book {
  std::vector<Method> methods;  ///< in file order
};

/// Reads the text of a methods file (TOML, at most 256 KiB). Every fault is reported, in file
/// order; `file` only names it.
[[nodiscard]] std::variant<Book, material::CatalogueErrors> read_methods(std::string_view text,
                                                                         std::string_view file);

/// A book of a printer's own before the usual one: where both have a name, the own one counts.
[[nodiscard]] Book joined(Book own, const Book& usual);

/// The method of a name or another word for it (capitals, spaces and hyphens do not matter), or
/// null.
[[nodiscard]] const Method* find_method(const Book& book, std::string_view name);
/// Names that look like it, nearest first; empty when none does.
[[nodiscard]] std::vector<std::string> similar_methods(const Book& book, std::string_view name);

/// The stages for a paper.
[[nodiscard]] std::vector<Stage> stages_for(const Method& method, const material::Stock& stock);

/// A method cut where the paper may be left to itself.
struct Parts {
  std::vector<Stage> wetting;  ///< until the last stage that water is brought or taken in
  std::vector<Stage> rest;     ///< what follows: covered, hung, left
};
[[nodiscard]] Parts parts_of(std::vector<Stage> stages);
/// Water is laid on, drunk from the tub, or exchanged with other layers.
[[nodiscard]] bool exchanges_water(const Stage& stage);

[[nodiscard]] units::Duration length_of(std::span<const Stage> stages);  ///< at the most
[[nodiscard]] units::Duration hands_time(std::span<const Stage> stages);
[[nodiscard]] bool any_in_tub(std::span<const Stage> stages);

}  // namespace dampline::method
