#pragma once

#include <concepts>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/session/document.hpp>
#include <dampline/session/keys.hpp>
#include <dampline/session/session.hpp>

/// Typed access to one table of a session file, driven by the key table. Every fault is noted, none
/// stops the reading.
namespace dampline::session {

/// What is found out while one file is read.
class Findings {
 public:
  Findings(std::string_view text, std::string_view file) : text_(text), file_(file) {}
  void error(Place where, std::string what, std::string help) {
    errors.push_back(at(file_, text_, where, std::move(what), std::move(help)));
  }
  void warning(Place where, std::string what, std::string help) {
    warnings.push_back(at(file_, text_, where, std::move(what), std::move(help)));
  }
  [[nodiscard]] std::string_view text() const { return text_; }

  InputErrors errors;
  InputErrors warnings;
  std::vector<std::string> defaults;

 private:
  std::string_view text_;
  std::string_view file_;
};

class Section {
 public:
  /// The top of the file; complains of keys the table does not have.
  Section(Findings& findings, const Value& top);

  [[nodiscard]] bool present() const { return table_ != nullptr; }
  [[nodiscard]] bool has(std::string_view name) const { return member(name) != nullptr; }
  /// Of the value; of the table when the key is missing.
  [[nodiscard]] Place where(std::string_view name) const;
  [[nodiscard]] Place where() const { return where_; }
  /// Defaults used from here on make no difference and are not listed.
  void list_no_defaults() { quiet_ = true; }

  // Each sets `to` and says true when the key is there and good, or missing with a default (which
  // is then listed). False: missing without one, or wrong (and the fault noted).
  bool text(std::string_view name, std::string& to);
  bool whole(std::string_view name, int& to);
  bool number(std::string_view name, double& to);
  bool truth(std::string_view name, bool& to);
  bool names(std::string_view name, std::vector<std::string>& to, std::vector<Place>& places);
  bool date(std::string_view name, std::chrono::year_month_day& to);
  bool clock(std::string_view name, ClockTime& to);
  bool quantity(std::string_view name, units::Length& to);
  bool quantity(std::string_view name, units::Size& to);
  bool quantity(std::string_view name, units::Duration& to);
  bool quantity(std::string_view name, units::Temperature& to);
  bool quantity(std::string_view name, units::RelativeHumidity& to);
  bool quantity(std::string_view name, units::Grammage& to);
  bool quantity(std::string_view name, units::Strain& to);
  /// Positions in the key's words.
  bool word(std::string_view name, std::size_t& to);
  bool words(std::string_view name, std::vector<std::size_t>& to);
  bool durations(std::string_view name, std::map<std::string, units::Duration>& to,
                 std::map<std::string, Place>& places);

  template <class Enum>
  bool choice(std::string_view name, Enum& to) {
    std::size_t position = 0;
    if (!word(name, position)) return false;
    to = static_cast<Enum>(position);
    return true;
  }
  /// An optional key: none when it is missing or wrong.
  template <class T>
  void maybe(std::string_view name, std::optional<T>& to) {
    T found{};
    if constexpr (std::same_as<T, std::string>) {
      if (text(name, found)) to = std::move(found);
    } else if constexpr (std::same_as<T, int>) {
      if (whole(name, found)) to = found;
    } else if constexpr (std::same_as<T, ClockTime>) {
      if (clock(name, found)) to = found;
    } else {
      if (quantity(name, found)) to = found;
    }
  }

  /// The table inside; one that is missing is empty, and its defaults are used.
  [[nodiscard]] Section inside(std::string_view name);
  /// Each of a list of tables; of the default list when it is missing and has one.
  [[nodiscard]] std::vector<Section> each(std::string_view name);

  /// "studio.humidity = 50 %", for a default the key table cannot state.
  void note_default(std::string_view name, const std::string& value);

 private:
  Section(Findings& findings, std::string path, std::string shown, const Value* table, Place where,
          bool quiet = false);
  void refuse_unknown_keys();
  [[nodiscard]] const Key& key(std::string_view name) const;
  [[nodiscard]] const Value* member(std::string_view name) const;
  [[nodiscard]] std::string called(std::string_view name) const;
  /// The value in the file, else the default as a value (listed), else nullptr (noted if required).
  [[nodiscard]] const Value* value(std::string_view name);
  bool wrong_kind(std::string_view name, const Value& v, const std::string& help);
  bool refuse(std::string_view name, const Value& v, const units::Refusal& refusal);
  template <class Quantity, class Parse, class InSi>
  bool measured(std::string_view name, Quantity& to, Parse parse, InSi in_si);
  bool counted(std::string_view name, double& to, bool whole);

  Findings* findings_;
  std::string path_;    // "plates[]"
  std::string shown_;   // "plates[2]"
  const Value* table_;  // nullptr: missing
  Place where_;
  bool quiet_;  // its defaults go without saying
};

}  // namespace dampline::session
