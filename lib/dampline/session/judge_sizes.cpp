#include <algorithm>

#include <dampline/session/judge.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/session/words.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {
namespace {

bool known(const units::Size& s) { return units::in_si(s.width) > 0 && units::in_si(s.height) > 0; }

std::string size_text(const units::Size& s) {
  return units::shortest(units::in_centimetres(s.width)) + " x " +
         units::shortest(units::in_centimetres(s.height)) + " cm";
}

// What of a press the sheet is larger than; empty when it fits.
std::string too_small(const Press& press, const units::Size& sheet) {
  const auto of = [&](const std::optional<units::Size>& size, const char* what) {
    return size && !lies_on(sheet, *size)
               ? std::string(what) + " of " + quoted(press.name) + ", " + size_text(*size)
               : std::string();
  };
  const auto bed = of(press.bed, "the bed");
  return bed.empty() ? of(press.blankets, "the blankets") : bed;
}

void judge_plates_on_sheet(const Session& s, const Places& p, Findings& f) {
  for (std::size_t i = 0; i < s.plates.size(); ++i) {
    const auto& plate = s.plates[i];
    if (!known(plate.size) || lies_on(plate.size, s.paper.sheet)) continue;
    f.error(p.plate_sizes[i],
            "plate " + quoted(plate.name) + " of " + size_text(plate.size) +
                " is larger than the sheet of " + size_text(s.paper.sheet),
            "check both sizes; the plate must lie on the sheet one way or the other");
  }
}

void judge_presses(const Session& s, const Places& p, Findings& f) {
  const auto& sheet = s.paper.sheet;
  const auto& presses = s.equipment.presses;
  const bool some = std::any_of(presses.begin(), presses.end(), [&](const Press& press) {
    return too_small(press, sheet).empty();
  });
  if (!presses.empty() && !some) {
    f.error(p.sheet,
            "the sheet of " + size_text(sheet) + " fits no press: it is larger than " +
                too_small(presses.front(), sheet),
            "tear the sheet down, check the size, or print on a larger press");
    return;
  }
  for (std::size_t i = 0; i < s.plates.size(); ++i) {
    for (const auto& press : presses) {
      const auto small = too_small(press, sheet);
      if (s.plates[i].press != press.name || small.empty()) continue;
      f.error(p.plate_presses[i], "the sheet of " + size_text(sheet) + " is larger than " + small,
              "print this plate on another press, or tear the sheet down");
    }
  }
}

void judge_place(const std::optional<units::Size>& size, Place where, const char* what,
                 const char* help, const units::Size& sheet, Findings& f) {
  if (!size || lies_on(sheet, *size)) return;
  f.error(
      where,
      "the sheet of " + size_text(sheet) + " is larger than " + what + " of " + size_text(*size),
      help);
}

}  // namespace

void judge_sizes(const Session& s, const Places& p, Findings& f) {
  const auto& sheet = s.paper.sheet;
  if (!known(sheet)) return;
  judge_plates_on_sheet(s, p, f);
  judge_presses(s, p, f);
  const auto& e = s.equipment;
  if (e.tub) {
    judge_place(e.tub->size, p.tub_size, "the tub",
                "tear the sheet down, sponge it, or use a larger tub: a sheet that is folded or "
                "drawn through takes water unevenly",
                sheet, f);
  }
  judge_place(e.blotter, p.blotter, "a blotter",
              "tear the sheet down, or lay blotters edge to edge and give the size of both", sheet,
              f);
  judge_place(e.drying_size, p.drying_size, "the place it dries on",
              "tear the sheet down, or dry it on something larger", sheet, f);
}

}  // namespace dampline::session
