#include <dampline/method/stage.hpp>

namespace dampline::method {

std::string word(Arrangement a) {
  switch (a) {
    case Arrangement::tub:
      return "tub";
    case Arrangement::film:
      return "film";
    case Arrangement::drain:
      return "drain";
    case Arrangement::blot:
      return "blot";
    case Arrangement::towel:
      return "towel";
    case Arrangement::covered:
      return "covered";
    case Arrangement::bench:
      return "bench";
    case Arrangement::hang:
      return "hang";
    case Arrangement::rack:
      return "rack";
    case Arrangement::boards:
      return "boards";
    case Arrangement::press:
      return "press";
    case Arrangement::pack:
      break;
  }
  return "pack";
}

Stage left(Arrangement arrangement, units::Duration duration) {
  Stage s;
  s.name = word(arrangement);
  s.arrangement = arrangement;
  s.duration = duration;
  return s;
}

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
