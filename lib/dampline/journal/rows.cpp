#include <algorithm>
#include <charconv>

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/rows.hpp>
#include <dampline/journal/write.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::journal {
namespace {

std::string column_name(const Field& field) {
  return std::string(field.name) + (field.unit.empty() ? "" : "_" + std::string(field.unit));
}

std::vector<std::string> all_columns() {
  std::vector<std::string> out{"time", "session", "day", "stock", "kind", "note"};
  for (const auto& kind : kinds()) {
    for (const auto& field : kind.fields) {
      auto name = column_name(field);
      if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(std::move(name));
    }
  }
  out.emplace_back("other");
  return out;
}

// In six digits: 48.2 g, not the 48.20000000000001 g of its kilograms.
double tidy(double value) {
  const auto digits = units::shortest(value);
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

std::string without_escapes(std::string_view text) {
  std::string out;
  for (bool more = true; more;) {
    const auto end = text.find('\n');
    out += session::without_controls(text.substr(0, end));
    more = end != std::string_view::npos;
    if (more) {
      out += '\n';
      text.remove_prefix(end + 1);
    }
  }
  return out;
}

std::string csv_cell(const Cell& cell) {
  if (cell.number) return units::shortest(*cell.number);
  auto text = without_escapes(cell.text);
  if (text.find_first_of(",\"\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out.append(c == '"' ? 2 : 1, c);
  return out + '"';
}

}  // namespace

const std::vector<std::string>& columns() {
  static const auto names = all_columns();
  return names;
}

std::vector<Cell> row(const Entry& entry) {
  const auto& names = columns();
  std::vector<Cell> out(names.size());
  out[0].text = session::rfc3339(entry.time.offset, entry.time.at);
  out[1].text = entry.session;
  out[2].text = date_text(entry.day);
  out[3].text = entry.stock;
  out[4].text = kind_name(entry.record);
  out[5].text = entry.remark.value_or("");
  for (auto& d : data(entry.record)) {
    const auto at = std::find(names.begin(), names.end(), column_name(*d.field)) - names.begin();
    out[static_cast<std::size_t>(at)] =
        d.number ? Cell{"", tidy(*d.number)} : Cell{std::move(d.text), {}};
  }
  for (const auto& other : entry.others) {
    auto& text = out.back().text;
    text += (text.empty() ? "" : "; ") + other.key + "=" + other.value;
  }
  return out;
}

std::string csv(std::span<const Entry* const> entries) {
  std::string out;
  const auto line = [&out](const auto& cells, auto to_text) {
    bool first = true;
    for (const auto& cell : cells) {
      if (!first) out += ',';
      first = false;
      out += to_text(cell);
    }
    out += "\r\n";
  };
  line(columns(), [](const std::string& name) { return name; });
  for (const auto* entry : entries) line(row(*entry), csv_cell);
  return out;
}

}  // namespace dampline::journal
