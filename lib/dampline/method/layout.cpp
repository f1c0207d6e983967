#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include <dampline/method/layout.hpp>
#include <dampline/units/text.hpp>

namespace dampline::method {

namespace {

constexpr int most_layers = 64;

constexpr std::array<std::pair<std::string_view, Side>, 7> sides{{
    {"water", Side::water},
    {"air", Side::air},
    {"plastic", Side::plastic},
    {"table", Side::table},
    {"board", Side::board},
    {"plate", Side::plate},
    {"mirror", Side::mirror},
}};

constexpr std::array<std::pair<std::string_view, Piece>, 10> pieces{{
    {"sheet", Piece::sheet},
    {"like sheet", Piece::like},
    {"wet sheet", Piece::wet},
    {"dry sheet", Piece::dry},
    {"damp sheet", Piece::damp},
    {"blotter", Piece::blotter},
    {"towel", Piece::towel},
    {"newsprint", Piece::newsprint},
    {"tissue", Piece::tissue},
    {"felt", Piece::felt},
}};

template <class Words>
std::string listed(const Words& words) {
  std::string all;
  for (const auto& [name, value] : words) all += (all.empty() ? "" : ", ") + std::string(name);
  return all;
}

// A part between slashes, without the spaces around it, and where it stands in the text.
struct Part {
  std::string_view text;
  std::size_t column;
};

Part trimmed(std::string_view whole, std::size_t from, std::size_t to) {
  while (from < to && whole[from] == ' ') ++from;
  while (to > from && whole[to - 1] == ' ') --to;
  return {whole.substr(from, to - from), from};
}

std::vector<Part> parts_of(std::string_view text, std::size_t from) {
  std::vector<Part> parts;
  for (;;) {
    const std::size_t slash = std::min(text.find('/', from), text.size());
    // The slash of "g/g" parts nothing.
    std::size_t end = slash;
    while (end < text.size() && end > 0 && text[end - 1] == 'g' && end + 1 < text.size() &&
           text[end + 1] == 'g') {
      end = std::min(text.find('/', end + 1), text.size());
    }
    parts.push_back(trimmed(text, from, end));
    if (end >= text.size()) return parts;
    from = end + 1;
  }
}

units::Parsed<Side> side_of(const Part& part) {
  for (const auto& [name, side] : sides) {
    if (part.text == name) return side;
  }
  return units::Refusal{part.column,
                        "a stack ends in a face, not in \"" + std::string(part.text) + "\"",
                        "one of: " + listed(sides)};
}

units::Parsed<Piled> piled_of(const Part& part) {
  Piled piled;
  std::string_view rest = part.text;
  const auto got = std::from_chars(rest.data(), rest.data() + rest.size(), piled.count);
  if (got.ec == std::errc() && got.ptr != rest.data() + rest.size() && *got.ptr == ' ') {
    rest.remove_prefix(static_cast<std::size_t>(got.ptr - rest.data()) + 1);
  } else {
    piled.count = 1;
  }
  if (piled.count < 1 || piled.count > most_layers) {
    return units::Refusal{part.column, "a stack has 1 to 64 layers", "write a smaller number"};
  }
  std::string_view moisture;
  const std::size_t digit = rest.find_first_of("0123456789.");
  if (digit != std::string_view::npos) {
    moisture = rest.substr(digit);
    rest = rest.substr(0, digit);
    while (!rest.empty() && rest.back() == ' ') rest.remove_suffix(1);
  }
  for (const auto& [name, piece] : pieces) {
    const bool plural =
        rest.size() == name.size() + 1 && rest.starts_with(name) && rest.back() == 's';
    if (rest != name && !plural) continue;
    piled.piece = piece;
    if (piece != Piece::damp) {
      if (moisture.empty()) return piled;
      return units::Refusal{part.column, "only damp sheets have a moisture of their own",
                            "write \"damp sheet " + std::string(moisture) + "\""};
    }
    const auto read = units::parse_moisture(moisture);
    if (const auto* u = std::get_if<units::Moisture>(&read)) {
      piled.moisture = *u;
      return piled;
    }
    return units::Refusal{part.column, "how damp a damp sheet is must be said",
                          "write \"damp sheet 0.40 g/g\""};
  }
  return units::Refusal{part.column, "unknown layer \"" + std::string(rest) + "\"",
                        "one of: " + listed(pieces)};
}

}  // namespace

bool absorbs(Piece piece) {
  return piece == Piece::blotter || piece == Piece::towel || piece == Piece::newsprint ||
         piece == Piece::tissue || piece == Piece::felt;
}

bool Layout::has_absorbents() const {
  return std::any_of(layers.begin(), layers.end(), [](const Piled& p) { return absorbs(p.piece); });
}

units::Parsed<Layout> parse_layout(std::string_view text) {
  Layout layout;
  layout.layers.clear();
  std::size_t from = 0;
  if (const std::string_view upright = "hung:"; text.starts_with(upright)) {
    layout.hung = true;
    from = upright.size();
  }
  const auto parts = parts_of(text, from);
  if (parts.size() < 3) {
    return units::Refusal{0, "a stack has a face, layers and a face, parted by /",
                          "write \"air / sheet / table\""};
  }
  const auto upper = side_of(parts.front());
  if (const auto* no = std::get_if<units::Refusal>(&upper)) return *no;
  const auto lower = side_of(parts.back());
  if (const auto* no = std::get_if<units::Refusal>(&lower)) return *no;
  layout.upper = std::get<Side>(upper);
  layout.lower = std::get<Side>(lower);
  int layers = 0;
  int followed = 0;
  for (std::size_t i = 1; i + 1 < parts.size(); ++i) {
    const auto piled = piled_of(parts[i]);
    if (const auto* no = std::get_if<units::Refusal>(&piled)) return *no;
    layout.layers.push_back(std::get<Piled>(piled));
    layers += layout.layers.back().count;
    if (layout.layers.back().piece == Piece::sheet) followed += layout.layers.back().count;
  }
  if (followed != 1) {
    return units::Refusal{0, "a stack follows one sheet, this one has " + std::to_string(followed),
                          "call one layer \"sheet\" and others like it \"like sheet\""};
  }
  if (layers > most_layers) {
    return units::Refusal{0, "a stack has at most 64 layers", "leave some out"};
  }
  return layout;
}

std::string word(Side side) {
  for (const auto& [name, value] : sides) {
    if (value == side) return std::string(name);
  }
  return {};
}

std::string word(Piece piece) {
  for (const auto& [name, value] : pieces) {
    if (value == piece) return std::string(name);
  }
  return {};
}

std::string text(const Layout& layout) {
  std::string out = layout.hung ? "hung: " : "";
  out += word(layout.upper);
  for (const Piled& p : layout.layers) {
    out += " / ";
    if (p.count > 1) out += std::to_string(p.count) + " ";
    out += word(p.piece);
    if (p.count > 1 && p.piece != Piece::newsprint) out += 's';
    if (p.piece == Piece::damp) out += " " + units::shortest(p.moisture.parts_of_one()) + " g/g";
  }
  return out + " / " + word(layout.lower);
}

}  // namespace dampline::method
