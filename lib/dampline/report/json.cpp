#include <array>
#include <stdexcept>
#include <utility>

#include <dampline/report/json.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {
namespace {

void append_escaped(std::string& out, char c) {
  constexpr std::string_view hex = "0123456789abcdef";
  switch (c) {
    case '"':
      out += "\\\"";
      return;
    case '\\':
      out += "\\\\";
      return;
    case '\n':
      out += "\\n";
      return;
    case '\t':
      out += "\\t";
      return;
    case '\r':
      out += "\\r";
      return;
    default:
      break;
  }
  const auto byte = static_cast<unsigned char>(c);
  if (byte < 0x20 || byte == 0x7F) {
    out += "\\u00";
    out += hex[byte >> 4U];
    out += hex[byte & 0xFU];
    return;
  }
  out += c;
}

}  // namespace

std::string json_quoted(std::string_view text) {
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const auto length = session::sequence_length(text, at);
    if (length == 1) {
      append_escaped(out, text[at]);
    } else if (length == 0) {
      out += "\uFFFD";
    } else {
      out += text.substr(at, length);
    }
    at += length == 0 ? 1 : length;
  }
  return out + '"';
}

void JsonWriter::separate() {
  if (open_.empty()) {
    if (!out_.empty()) throw std::logic_error("a second value at the top of a JSON document");
    return;
  }
  auto& in = open_.back();
  if (in.keyed) {
    in.keyed = false;
    return;
  }
  if (!in.empty) out_ += in.row ? ", " : ",";
  in.empty = false;
  if (!in.row) out_ += '\n' + std::string(2 * open_.size(), ' ');
}

JsonWriter& JsonWriter::key(std::string_view name) {
  if (open_.empty() || open_.back().kind != '{' || open_.back().keyed) {
    throw std::logic_error("a JSON key outside an object");
  }
  separate();
  out_ += json_quoted(name) + ": ";
  open_.back().keyed = true;
  return *this;
}

JsonWriter& JsonWriter::raw(std::string_view token) {
  if (!open_.empty() && open_.back().kind == '{' && !open_.back().keyed) {
    throw std::logic_error("a JSON value without a key in an object");
  }
  separate();
  out_ += token;
  return *this;
}

JsonWriter& JsonWriter::value(std::string_view text) { return raw(json_quoted(text)); }
JsonWriter& JsonWriter::value(double number) { return raw(units::exact(number)); }

JsonWriter& JsonWriter::begin(char kind, Layout layout) {
  const bool row = layout == Layout::row || (!open_.empty() && open_.back().row);
  raw(std::string_view(&kind, 1));
  open_.push_back({kind, row});
  return *this;
}

JsonWriter& JsonWriter::end(char kind) {
  if (open_.empty() || open_.back().keyed || (open_.back().kind == '{') != (kind == '}')) {
    throw std::logic_error("an end of JSON that was not begun");
  }
  const auto closed = open_.back();
  open_.pop_back();
  if (!closed.row && !closed.empty) out_ += '\n' + std::string(2 * open_.size(), ' ');
  out_ += kind;
  return *this;
}

std::string JsonWriter::take() {
  if (!open_.empty()) throw std::logic_error("an unfinished JSON document");
  return std::exchange(out_, {}) + '\n';
}

}  // namespace dampline::report
