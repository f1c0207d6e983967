#include <algorithm>

#include <dampline/session/keys.hpp>
#include <dampline/session/words.hpp>

namespace dampline::session {
namespace {

// Words stand in the order of their enum.
template <class Choice>
std::string word_at(std::string_view path, Choice choice) {
  return std::string(find_key(path)->words[static_cast<std::size_t>(choice)]);
}

}  // namespace

std::string word(DryingMethod method) { return word_at("equipment.drying.method", method); }
std::string word(AirMovement air) { return word_at("studio.air", air); }

bool lies_on(const units::Size& small, const units::Size& large) {
  const auto sides = [](const units::Size& s) {
    // The list form returns values; the other would return references to what is gone.
    return std::minmax({units::in_millimetres(s.width), units::in_millimetres(s.height)});
  };
  const auto [a, b] = sides(small);
  const auto [c, d] = sides(large);
  constexpr double slack = 0.1;
  return a <= c + slack && b <= d + slack;
}

}  // namespace dampline::session
