#pragma once

#include <array>
#include <concepts>
#include <type_traits>

#include <dampline/journal/entry.hpp>

/// The one list of what each kind of entry holds. A visitor is called with a Label and each member
/// in turn: `std::optional` members may be left out, the others may not. A new kind is a struct in
/// entry.hpp, a place in Record and a block here.
namespace dampline::journal {

struct Label {
  std::string_view name;
  std::string_view help;
  std::string_view example;
  char letter = 0;
  std::size_t longest = 200;  ///< characters of a text
};

template <class Enum>
struct Words;
template <>
struct Words<Weighing::When> {
  static constexpr std::array<std::string_view, 6> all{"dry",   "soaked", "blotted",
                                                       "bench", "pulled", "dried"};
};
template <>
struct Words<Length::Direction> {
  static constexpr std::array<std::string_view, 2> all{"along", "across"};
};
template <>
struct Words<Length::When> {
  static constexpr std::array<std::string_view, 5> all{"dry", "damp", "pulled", "waited", "dried"};
};
template <>
struct Words<Touch::Verdict> {
  static constexpr std::array<std::string_view, 3> all{"too wet", "right", "too dry"};
};
template <>
struct Words<Felt::Which> {
  static constexpr std::array<std::string_view, 4> all{"catcher", "cushion", "pusher", "all"};
};
template <>
struct Words<Felt::Done> {
  static constexpr std::array<std::string_view, 5> all{"changed", "turned", "squared", "aired",
                                                       "washed"};
};
template <>
struct Words<Print::Verdict> {
  static constexpr std::array<std::string_view, 2> all{"good", "spoiled"};
};

/// How a kind is called and told of.
struct KindHead {
  std::string_view name;
  std::string_view purpose;
  std::string_view example;
};

template <class Kind>
inline constexpr KindHead head{};
template <>
inline constexpr KindHead head<Start>{"start", "a step is begun",
                                      "start wipe --plate key --print 1"};
template <>
inline constexpr KindHead head<Finish>{"finish", "a step is done",
                                       "finish wipe --plate key --print 1"};
template <>
inline constexpr KindHead head<Weighing>{"weigh", "what a sheet weighs",
                                         "weigh blotted 64.2 g --sheet 3"};
template <>
inline constexpr KindHead head<Length>{"length", "how far apart two pencil marks are",
                                       "length across damp 303.5 mm --sheet 3"};
template <>
inline constexpr KindHead head<Touch>{"touch", "what the fingers say of a sheet",
                                      "touch too dry --sheet 3"};
template <>
inline constexpr KindHead head<Air>{"air", "what the hygrometer shows",
                                    "air -t \"17 degC\" -u \"52 %\""};
template <>
inline constexpr KindHead head<Press>{"press", "what the press shows at both ends of its roller",
                                      "press 3.2 3.4 --scale turns"};
template <>
inline constexpr KindHead head<Felt>{"felt", "something done to the blankets",
                                     "felt catcher changed"};
template <>
inline constexpr KindHead head<Ink>{"ink", "the ink, and what was done to it",
                                    "ink bone black, 3 drops of oil --plate key"};
template <>
inline constexpr KindHead head<Print>{"print", "a print off the press, good or spoiled",
                                      "print 4 spoiled --why \"creased at the tail\""};
template <>
inline constexpr KindHead head<Note>{"note", "anything else",
                                     "note window opened, sun on the bench"};

template <class Type, class Kind>
concept Like = std::same_as<std::remove_const_t<Type>, Kind>;
template <class Type>
concept StepLike = std::derived_from<std::remove_const_t<Type>, StepMark>;

inline constexpr Label plate_label{"plate", "which plate", "key"};
inline constexpr Label sheet_label{"sheet", "which sheet, by its pencil number", "3"};

template <class Visitor, StepLike K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"step", "the kind of step, as the plan calls it, or its id", "wipe"}, k.step);
  v(plate_label, k.plate);
  v(Label{"print", "towards which print", "1"}, k.print);
  v(Label{"sheets", "which sheets, by their pencil numbers", "3-5"}, k.sheets);
  v(Label{"person", "who", "A"}, k.person);
}

template <class Visitor, Like<Weighing> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"state", "after what", "blotted"}, k.state);
  v(Label{"mass", "what the scale shows", "64.2 g"}, k.mass);
  v(Label{"after", "how long in the water, on the bench", "12 min"}, k.after);
  v(sheet_label, k.sheet);
}

template <class Visitor, Like<Length> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"direction", "by the grain", "across"}, k.direction);
  v(Label{"state", "after what", "damp"}, k.state);
  v(Label{"length", "between the marks", "303.5 mm"}, k.length);
  v(Label{"after", "how long it had waited", "20 min"}, k.after);
  v(sheet_label, k.sheet);
}

template <class Visitor, Like<Touch> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"verdict", "limp, cool, no shine is right", "right"}, k.verdict);
  v(sheet_label, k.sheet);
}

template <class Visitor, Like<Air> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"temperature", "of the air", "17 degC", 't'}, k.temperature);
  v(Label{"humidity", "of the air", "52 %", 'u'}, k.humidity);
  v(Label{"wet_bulb", "a thermometer in a wet wick, instead of the humidity", "12 degC"},
    k.wet_bulb);
  v(Label{"place", "where it hangs", "bench"}, k.place);
}

template <class Visitor, Like<Press> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"left", "reading at the left end, on the press's own scale", "3.2"}, k.left);
  v(Label{"right", "reading at the right end", "3.4"}, k.right);
  v(Label{"scale", "what the readings count", "turns"}, k.scale);
  v(Label{"press", "which press", "table press"}, k.press);
}

template <class Visitor, Like<Felt> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"felt", "the catcher lies on the paper", "catcher"}, k.felt);
  v(Label{"done", "what was done", "changed"}, k.done);
}

template <class Visitor, Like<Ink> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"what", "the ink, and what was added", "bone black, 3 drops of oil", 0, 4000}, k.what);
  v(plate_label, k.plate);
}

template <class Visitor, Like<Print> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"print", "the number of the print", "4"}, k.print);
  v(Label{"verdict", "what it is fit for", "good"}, k.verdict);
  v(Label{"why", "what spoiled it, or what is to be minded", "creased at the tail", 0, 4000},
    k.why);
  v(plate_label, k.plate);
  v(sheet_label, k.sheet);
}

template <class Visitor, Like<Note> K>
void visit_fields(Visitor& v, K& k) {
  v(Label{"text", "as long as you like", "window opened", 0, 4000}, k.text);
}

template <class Visitor, Like<Unknown> K>
void visit_fields(Visitor&, K&) {}

}  // namespace dampline::journal
