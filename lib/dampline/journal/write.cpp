#include <dampline/journal/blocks.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/write.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::journal {
namespace {

std::string hexadecimal(unsigned code) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string out = "\\u0000";
  for (std::size_t i = 6; code != 0; code >>= 4U) out[--i] = digits[code & 15U];
  return out;
}

// Code point of a sequence of two or three bytes; 0 for one of four.
unsigned short_code(std::string_view sequence) {
  const auto part = [&](std::size_t i) { return static_cast<unsigned char>(sequence[i]) & 0x3FU; };
  const auto first = static_cast<unsigned char>(sequence[0]);
  if (sequence.size() == 2) return (first & 0x1FU) << 6U | part(1);
  if (sequence.size() == 3) return (first & 0x0FU) << 12U | part(1) << 6U | part(2);
  return 0;
}

// C1 controls, line separators, and what turns the direction of text.
bool unsafe(unsigned code) {
  return (code >= 0x80 && code < 0xA0) || code == 0x61C || (code >= 0x200E && code <= 0x200F) ||
         (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF;
}

void add(std::string& out, std::string_view key, std::string_view value) {
  out.append(key).append(" = ").append(value) += '\n';
}

}  // namespace

std::string toml_text(std::string_view text) {
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const auto length = std::max<std::size_t>(session::sequence_length(text, at), 1);
    const auto sequence = text.substr(at, length);
    const char c = sequence[0];
    at += length;
    if (length > 1) {
      const auto code = short_code(sequence);
      out += unsafe(code) ? hexadecimal(code) : std::string(sequence);
    } else if (c == '"' || c == '\\') {
      out.append("\\") += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\r') {
      out += "\\r";
    } else if (c == '\t') {
      out += "\\t";
    } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
      out += hexadecimal(static_cast<unsigned char>(c));
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string date_text(std::chrono::year_month_day day) {
  return session::rfc3339(std::chrono::minutes(0), std::chrono::sys_days(day)).substr(0, 10);
}

std::string written(const Entry& entry) {
  std::string out = "\n";
  out.append(head_line).append("\n").append(opening_line).append("\n");
  add(out, "time", session::rfc3339(entry.time.offset, entry.time.at));
  if (!entry.session.empty()) add(out, "session", toml_text(entry.session));
  add(out, "day", date_text(entry.day));
  if (!entry.stock.empty()) add(out, "stock", toml_text(entry.stock));
  add(out, "kind", toml_text(kind_name(entry.record)));
  for (const auto& d : data(entry.record)) {
    add(out, d.field->name, d.bare ? d.text : toml_text(d.text));
  }
  if (entry.remark) add(out, "note", toml_text(*entry.remark));
  return out.append(closing_line) + '\n';
}

std::string_view preamble() {
  return "# What was done, measured and seen while printing: one [[entry]] a fact, written by\n"
         "# `dampline log`. Entries are added at the end and never changed. It is TOML: read it,\n"
         "# copy it, mend a slip of the pen if you must.\n";
}

}  // namespace dampline::journal
