#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/journal/entry.hpp>
#include <dampline/units/parse.hpp>

/// What the kinds of entry hold, as one description each: reading, writing, command line, help,
/// lists and tables all go by it.
namespace dampline::journal {

/// One thing an entry of a kind holds.
struct Field {
  std::string_view name;     ///< key in the journal: "wet_bulb"
  std::string_view help;     ///< "which sheet, by its pencil number"
  std::string_view example;  ///< as a value: "64.2 g"
  char letter = 0;           ///< of its option; 0: none
  bool required = false;
  std::string_view unit;                ///< of its numbers in tables, "g"; empty: none, or text
  std::vector<std::string_view> words;  ///< the only values; empty: any
};

struct KindAbout {
  std::string_view name;     ///< key `kind` in the journal, and the word after `dampline log`
  std::string_view purpose;  ///< "what a sheet weighs"
  std::string_view example;  ///< words after `dampline log weigh`
  std::vector<Field> fields;
};

/// Every kind but Unknown, in the order of a day.
[[nodiscard]] std::span<const KindAbout> kinds();
/// Null: no such kind.
[[nodiscard]] const KindAbout* find_kind(std::string_view name);
[[nodiscard]] std::string_view kind_name(const Record& record);

/// One value of a record.
struct Datum {
  const Field* field = nullptr;
  std::string text;              ///< "64.2 g"
  std::optional<double> number;  ///< in the field's unit
  bool bare = false;             ///< a number without a unit
};

/// What a record holds, in the order of its kind; what is not stated is left out.
[[nodiscard]] std::vector<Datum> data(const Record& record);

struct Fault {
  std::string field;  ///< empty: of the entry as a whole
  units::Refusal refusal;
};

/// The value of a field as written; none: not stated.
using Given = std::function<std::optional<std::string>(const Field&)>;

/// A record of a kind from texts, or everything that is wrong with them. The kind must be known.
///
/// Range   sheets and prints 1 to 100 000; to 50 kg, 10 m, 60 days, -40 to 80 degC; press readings
///         within a million either way; names to 200 characters, notes and reasons to 4000.
[[nodiscard]] std::variant<Record, std::vector<Fault>> made(std::string_view kind,
                                                            const Given& given);

/// Why a text cannot be stored: too long, or no UTF-8.
[[nodiscard]] std::optional<units::Refusal> text_fault(std::string_view text, std::size_t longest);
inline constexpr std::size_t longest_name = 200;   ///< characters
inline constexpr std::size_t longest_note = 4000;  ///< characters

/// "blotted 64.2 g, sheet 3"; control characters of what was typed are still in it.
[[nodiscard]] std::string summary(const Entry& entry);

}  // namespace dampline::journal
