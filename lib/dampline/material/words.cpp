#include <array>
#include <utility>

#include <dampline/material/catalogue.hpp>

namespace dampline::material {

namespace {

template <class Thing, std::size_t n>
using Words = std::array<std::pair<Thing, std::string_view>, n>;

// The first word of a thing is the one written; the others are read too.
constexpr Words<Kind, 6> kinds{{{Kind::paper, "paper"},
                                {Kind::blotter, "blotter"},
                                {Kind::newsprint, "newsprint"},
                                {Kind::felt, "felt"},
                                {Kind::towel, "towel"},
                                {Kind::tissue, "tissue"}}};
constexpr Words<Furnish, 9> furnishes{{{Furnish::cotton, "cotton"},
                                       {Furnish::rag, "rag"},
                                       {Furnish::kozo, "kozo"},
                                       {Furnish::gampi, "gampi"},
                                       {Furnish::wood, "wood"},
                                       {Furnish::mixed, "mixed"},
                                       {Furnish::wool, "wool"},
                                       {Furnish::cotton, "linters"},
                                       {Furnish::rag, "linen"}}};
constexpr Words<Making, 6> makings{{{Making::hand, "hand"},
                                    {Making::mould, "mould"},
                                    {Making::machine, "machine"},
                                    {Making::hand, "hand-made"},
                                    {Making::mould, "mould-made"},
                                    {Making::machine, "machine-made"}}};
constexpr Words<Sizing, 8> sizings{{{Sizing::waterleaf, "waterleaf"},
                                    {Sizing::soft, "soft"},
                                    {Sizing::internal, "internal"},
                                    {Sizing::hard, "hard"},
                                    {Sizing::tub, "tub"},
                                    {Sizing::waterleaf, "unsized"},
                                    {Sizing::tub, "gelatine"},
                                    {Sizing::tub, "tub-sized"}}};

template <class Thing, std::size_t n>
std::string_view first_word(const Words<Thing, n>& words, Thing thing) {
  for (const auto& [t, text] : words) {
    if (t == thing) return text;
  }
  return {};
}
template <class Thing, std::size_t n>
std::optional<Thing> meaning(const Words<Thing, n>& words, std::string_view text) {
  for (const auto& [thing, known] : words) {
    if (known == text) return thing;
  }
  return std::nullopt;
}

}  // namespace

std::string_view word(Kind k) { return first_word(kinds, k); }
std::string_view word(Furnish f) { return first_word(furnishes, f); }
std::string_view word(Making m) { return first_word(makings, m); }
std::string_view word(Sizing s) { return first_word(sizings, s); }
std::optional<Kind> kind_from(std::string_view text) { return meaning(kinds, text); }
std::optional<Furnish> furnish_from(std::string_view text) { return meaning(furnishes, text); }
std::optional<Making> making_from(std::string_view text) { return meaning(makings, text); }
std::optional<Sizing> sizing_from(std::string_view text) { return meaning(sizings, text); }

}  // namespace dampline::material
