#include <algorithm>
#include <array>

#include <dampline/method/stage.hpp>

namespace dampline::method {

namespace {

struct Usual {
  Arrangement arrangement;
  std::string_view word;
  std::string_view stack;
  stack::Contact contact;
  bool hands;
};

using stack::Contact;
constexpr std::array<Usual, 18> usual{{
    {Arrangement::tub, "tub", "water / sheet / water", Contact::laid, false},
    {Arrangement::film, "film", "air / sheet / table", Contact::laid, true},
    {Arrangement::drain, "drain", "hung: air / sheet / air", Contact::laid, true},
    {Arrangement::blot, "blot", "board / blotter / sheet / blotter / board", Contact::hand, true},
    {Arrangement::towel, "towel", "board / towel / sheet / towel / board", Contact::hand, true},
    {Arrangement::covered, "covered", "plastic / sheet / plastic", Contact::laid, false},
    {Arrangement::bench, "bench", "air / sheet / table", Contact::laid, false},
    {Arrangement::hang, "hang", "hung: air / sheet / air", Contact::laid, false},
    {Arrangement::rack, "rack", "air / sheet / air", Contact::laid, false},
    {Arrangement::boards, "boards", "board / blotter / sheet / blotter / board", Contact::boards,
     false},
    {Arrangement::press, "press", "plate / sheet / 2 newsprint / felt / board", Contact::nip, true},
    {Arrangement::pack, "pack", "mirror / sheet / board", Contact::laid, false},
    {Arrangement::dip, "dip", "water / sheet / water", Contact::laid, true},
    {Arrangement::line, "line", "hung: air / sheet / air", Contact::laid, false},
    {Arrangement::taped, "taped", "air / sheet / table", Contact::laid, false},
    {Arrangement::forced, "forced", "air / blotter / sheet / blotter / air", Contact::boards,
     false},
    {Arrangement::pile, "pile", "plastic / sheet / 4 like sheets / mirror", Contact::laid, false},
    {Arrangement::own, "own", "air / sheet / table", Contact::laid, false},
}};

const Usual& usual_of(Arrangement a) {
  return *std::find_if(usual.begin(), usual.end(),
                       [&](const Usual& u) { return u.arrangement == a; });
}

}  // namespace

std::string word(Arrangement a) { return std::string(usual_of(a).word); }

std::optional<Arrangement> arrangement_from(std::string_view word) {
  for (const Usual& u : usual) {
    if (u.word == word && u.arrangement != Arrangement::own) return u.arrangement;
  }
  return std::nullopt;
}

Layout layout_of(const Stage& stage) {
  if (stage.stack) return *stage.stack;
  // Read once: a stage is laid out for every run of it.
  static const std::vector<Layout> layouts = [] {
    std::vector<Layout> all;
    for (const Usual& u : usual) all.push_back(std::get<Layout>(parse_layout(u.stack)));
    return all;
  }();
  Layout layout = layouts[static_cast<std::size_t>(&usual_of(stage.arrangement) - usual.data())];
  if (stage.arrangement == Arrangement::pack) {
    for (const auto& u : stage.neighbours) layout.layers.push_back({Piece::damp, 1, u});
  }
  return layout;
}

stack::Contact contact_of(const Stage& stage) {
  return stage.contact.value_or(usual_of(stage.arrangement).contact);
}

bool needs_hands(const Stage& stage) {
  return stage.hands.value_or(usual_of(stage.arrangement).hands);
}

bool uses_tub(const Stage& stage) { return layout_of(stage).touches(Side::water); }

bool open_to_air(const Stage& stage) {
  const Layout layout = layout_of(stage);
  return (layout.upper == Side::air && layout.layers.front().piece == Piece::sheet) ||
         (layout.lower == Side::air && layout.layers.back().piece == Piece::sheet);
}

units::Grammage wet_not_dripping() { return units::grams_per_m2(100); }

Stage left(Arrangement arrangement, units::Duration duration) {
  Stage s;
  s.name = word(arrangement);
  s.arrangement = arrangement;
  s.duration = duration;
  return s;
}

Stage nip_pass() { return left(Arrangement::press, units::seconds(nip_seconds)); }

Stage blotted(int passes, units::Duration each) {
  Stage s = left(Arrangement::blot, each * static_cast<double>(passes));
  s.passes = passes;
  s.contact = stack::Contact::roller;
  return s;
}

std::vector<Stage> soak_blot_rest(units::Duration soak, int blots, units::Duration rest,
                                  units::Temperature water) {
  std::vector<Stage> stages;
  Stage tub = left(Arrangement::tub, soak);
  tub.name = "soak";
  tub.water = water;
  stages.push_back(tub);
  stages.push_back(left(Arrangement::drain, units::seconds(30)));
  if (blots > 0) stages.push_back(blotted(blots));
  Stage covered = left(Arrangement::covered, rest);
  covered.name = "rest";
  if (units::in_si(rest) > 0) stages.push_back(covered);
  return stages;
}

namespace {

std::vector<Stage> wetted(const char* name, units::Grammage film, int faces, units::Duration rest) {
  Stage wet = left(Arrangement::film, units::minutes(1));
  wet.name = name;
  wet.film = film;
  wet.film_faces = faces;
  Stage covered = left(Arrangement::covered, rest);
  covered.name = "rest";
  return {wet, covered};
}

}  // namespace

std::vector<Stage> sponge_rest(units::Grammage film, units::Duration rest) {
  return wetted("sponge", film, 1, rest);
}

std::vector<Stage> mist_rest(units::Grammage film, units::Duration rest) {
  return wetted("mist", film, 2, rest);
}

std::vector<Stage> damp_pack(units::Moisture wet, int dry, units::Duration rest) {
  Stage pack = left(Arrangement::pack, rest);
  pack.neighbours.push_back(wet);
  for (int i = 1; i < dry; ++i) pack.neighbours.push_back(units::Moisture(0.065));
  return {pack};
}

}  // namespace dampline::method
