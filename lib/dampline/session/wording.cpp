#include <algorithm>

#include <dampline/session/utf8.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {

std::string quoted(std::string_view text) { return "\"" + std::string(text) + "\""; }

std::string unquoted(std::string_view text) {
  std::string out(text);
  std::erase(out, '"');
  return out;
}

std::string example_line(std::string_view name, const Key& key) {
  return std::string(name) + " = " + std::string(key.example);
}

Place inside_text(const Value& v, std::string_view file_text, std::size_t column) {
  Place place = v.where;
  auto line = file_text;
  for (int n = 1; n < place.line; ++n) line.remove_prefix(line.find('\n') + 1);
  line = line.substr(0, line.find('\n'));
  std::size_t byte = 0;
  for (int n = 1; n < place.column && byte < line.size(); ++n) {
    byte += std::max<std::size_t>(sequence_length(line, byte), 1);
  }
  // Only where the text stands as it is, on one line behind one quote.
  if (byte < line.size() && line.substr(byte + 1).starts_with(v.text)) {
    place.column += 1 + static_cast<int>(code_points(std::string_view(v.text).substr(0, column)));
  }
  return place;
}

std::string number_text(const Value& v) {
  return v.kind == Kind::whole ? std::to_string(v.whole) : units::shortest(v.number);
}

bool is_number(const Value& v) { return v.kind == Kind::whole || v.kind == Kind::number; }

double read_plain(std::string_view digits) {
  return std::get<Value>(parse_document("x = " + std::string(digits), "keys"))
      .members[0]
      .value.number;
}

}  // namespace dampline::session
