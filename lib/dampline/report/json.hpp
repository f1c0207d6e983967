#pragma once

#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dampline::report {

enum class Layout {
  lines,  ///< one member a line, two spaces a level
  row     ///< the whole container, and what it holds, on one line
};

/// Writes JSON (RFC 8259) as it is told, keys in the order written. Numbers are written with the
/// digits that read back as the same double; NaN and infinity become null. Text must be UTF-8;
/// bytes that are not become U+FFFD. Misuse (a value without a key in an object, an end too many)
/// throws std::logic_error.
class JsonWriter {
 public:
  JsonWriter& begin_object(Layout layout = Layout::lines) { return begin('{', layout); }
  JsonWriter& end_object() { return end('}'); }
  JsonWriter& begin_array(Layout layout = Layout::lines) { return begin('[', layout); }
  JsonWriter& end_array() { return end(']'); }
  JsonWriter& key(std::string_view name);

  JsonWriter& value(std::string_view text);
  JsonWriter& value(const char* text) { return value(std::string_view(text)); }
  JsonWriter& value(const std::string& text) { return value(std::string_view(text)); }
  JsonWriter& value(double number);
  template <std::same_as<bool> Bool>
  JsonWriter& value(Bool truth) {
    return raw(truth ? "true" : "false");
  }
  template <std::integral Whole>
  requires(!std::same_as<Whole, bool>) JsonWriter& value(Whole number) {
    return raw(std::to_string(number));
  }
  JsonWriter& null() { return raw("null"); }

  template <class T>
  JsonWriter& member(std::string_view name, const T& v) {
    return key(name).value(v);
  }
  /// null when there is none
  template <class T>
  JsonWriter& member(std::string_view name, const std::optional<T>& v) {
    return v ? member(name, *v) : key(name).null();
  }
  template <class T>
  JsonWriter& member(std::string_view name, const std::vector<T>& all) {
    key(name).begin_array(Layout::row);
    for (const auto& v : all) value(v);
    return end_array();
  }

  /// The finished document, with a newline at its end.
  [[nodiscard]] std::string take();

 private:
  struct Open {
    char kind;
    bool row;
    bool empty = true;
    bool keyed = false;  // a key stands and waits for its value
  };
  JsonWriter& begin(char kind, Layout layout);
  JsonWriter& end(char kind);
  JsonWriter& raw(std::string_view token);
  void separate();

  std::string out_;
  std::vector<Open> open_;
};

/// `text` as a JSON string, quotes included.
[[nodiscard]] std::string json_quoted(std::string_view text);

}  // namespace dampline::report
