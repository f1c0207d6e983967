#include <algorithm>
#include <array>
#include <utility>

#include <dampline/report/family.hpp>

namespace dampline::report {

namespace {

constexpr std::array<FamilyName, 11> names = {{
    {Family::ready, 'R', "get ready", "ready"},
    {Family::damp, 'D', "damp or soak", "damp"},
    {Family::blot, 'B', "blot", "blot"},
    {Family::rest, 'c', "covered, resting", "rest"},
    {Family::ink, 'I', "ink and wipe", "ink"},
    {Family::hands, 'h', "wash hands", "hands"},
    {Family::press, 'P', "at the press", "press"},
    {Family::away, 'L', "look, lay away", "away"},
    {Family::clear, 'U', "clean up", "clear"},
    {Family::pause, '=', "break", "pause"},
    {Family::other, 'o', "other", "other"},
}};

constexpr std::pair<std::string_view, Family> kinds[] = {
    {"lay-out", Family::ready},
    {"tear", Family::ready},
    {"hot-plate", Family::ready},
    {"mix-ink", Family::ready},
    {"register-sheet", Family::ready},
    {"blankets", Family::ready},
    {"set-press", Family::ready},
    {"load", Family::damp},
    {"damp", Family::damp},
    {"soak", Family::damp},
    {"sponge", Family::damp},
    {"mist", Family::damp},
    {"re-damp", Family::damp},
    {"pack", Family::damp},
    {"drain", Family::blot},
    {"blot", Family::blot},
    {"rest", Family::rest},
    {"hold", Family::rest},
    {"warm", Family::ink},
    {"ink", Family::ink},
    {"wipe", Family::ink},
    {"roll-up", Family::ink},
    {"roll-over", Family::ink},
    {"make-image", Family::ink},
    {"wash-hands", Family::hands},
    {"chine-colle", Family::press},
    {"place", Family::press},
    {"change-plate", Family::press},
    {"pull", Family::press},
    {"square-blankets", Family::press},
    {"swap-catcher", Family::press},
    {"lift", Family::away},
    {"judge", Family::away},
    {"lay-away", Family::away},
    {"cover", Family::away},
    {"dry", Family::away},
    {"clean-plate", Family::clear},
    {"clean-slab", Family::clear},
    {"close-press", Family::clear},
    {"break", Family::pause},
    {"short-rest", Family::pause},
};

}  // namespace

std::span<const FamilyName> families() { return names; }

const FamilyName& name_of(Family family) { return names[static_cast<std::size_t>(family)]; }

Family family_of(std::string_view kind) {
  const auto found = std::find_if(std::begin(kinds), std::end(kinds),
                                  [kind](const auto& k) { return k.first == kind; });
  return found == std::end(kinds) ? Family::other : found->second;
}

}  // namespace dampline::report
