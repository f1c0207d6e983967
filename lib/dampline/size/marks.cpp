#include <cctype>
#include <cmath>
#include <string>

#include <dampline/method/scores.hpp>
#include <dampline/size/marks.hpp>
#include <dampline/units/text.hpp>

namespace dampline::size {

using units::in_si;

namespace {

constexpr double class_widened = 3;

const char* const example = "write \"dry 200 mm, damp 202.5 mm, dried 199.5 mm\"";

units::Refusal refusal(std::size_t column, std::string what) {
  return {column, std::move(what), example};
}

// One "word length" or "duration length" of the list; an empty text when it went in.
std::string put(Marks& marks, std::string_view part) {
  std::size_t digit = part.find_first_of("0123456789");
  if (digit == std::string_view::npos) {
    return "no length in \"" + std::string(part) + "\"";
  }
  auto word = part.substr(0, digit);
  while (word.ends_with(' ')) word.remove_suffix(1);
  auto rest = part.substr(digit);
  std::optional<units::Duration> wait;
  if (word.empty() || word == "after") {
    // "20 min 201.6 mm": the wait ends where the last number begins.
    const auto last = rest.find_last_of("0123456789");
    auto begin = last;
    while (begin > 0 && (std::isdigit(static_cast<unsigned char>(rest[begin - 1])) != 0 ||
                         rest[begin - 1] == '.')) {
      --begin;
    }
    auto time = rest.substr(0, begin);
    while (time.ends_with(' ')) time.remove_suffix(1);
    const auto parsed = units::parse_duration(time);
    if (!units::ok(parsed)) {
      return "neither dry, damp, pulled, dried nor a wait in \"" + std::string(part) + "\"";
    }
    wait = std::get<units::Duration>(parsed);
    if (units::in_hours(*wait) > 24) return "a wait is not within 24 h";
    rest = rest.substr(begin);
  }
  const auto length = units::parse_length(rest);
  if (!units::ok(length)) return std::get<units::Refusal>(length).what;
  const auto value = std::get<units::Length>(length);
  if (!(units::in_millimetres(value) >= 40 && units::in_millimetres(value) <= 2000)) {
    return "marks are not within 40 mm to 2 m of each other";
  }
  const auto once = [&](std::optional<units::Length>& to) -> std::string {
    if (to) return "the same reading twice: \"" + std::string(part) + "\"";
    to = value;
    return {};
  };
  if (wait) {
    marks.wait = *wait;
    return once(marks.waited);
  }
  if (word == "dry") {
    if (in_si(marks.dry) > 0) return "the same reading twice: \"" + std::string(part) + "\"";
    marks.dry = value;
    return {};
  }
  if (word == "damp") return once(marks.damp);
  if (word == "pulled") return once(marks.pulled);
  if (word == "dried") return once(marks.dried);
  return "\"" + std::string(word) + "\" is not a moment of the day (dry, damp, pulled, dried)";
}

bool possible(const Marks& m, const std::optional<units::Length>& reading) {
  if (!reading) return true;
  const double growth = in_si(*reading) / in_si(m.dry) - 1;
  return growth >= -0.03 && growth <= 0.12;
}

}  // namespace

units::Parsed<Marks> parse_marks(std::string_view text) {
  Marks marks;
  std::size_t at = 0;
  while (at <= text.size()) {
    auto comma = text.find(',', at);
    if (comma == std::string_view::npos) comma = text.size();
    std::size_t from = at;
    while (from < comma && text[from] == ' ') ++from;
    auto part = text.substr(from, comma - from);
    while (part.ends_with(' ')) part.remove_suffix(1);
    if (auto wrong = put(marks, part); !wrong.empty()) return refusal(from, std::move(wrong));
    at = comma + 1;
  }
  if (!(in_si(marks.dry) > 0)) return refusal(0, "no dry length to compare with");
  if (!marks.damp && !marks.pulled && !marks.waited && !marks.dried) {
    return refusal(0, "a dry length alone shows no growth");
  }
  for (const auto& reading : {marks.damp, marks.pulled, marks.waited, marks.dried}) {
    if (!possible(marks, reading)) {
      return refusal(0, "a growth outside -3 to 12 %: " + units::text(*reading) + " from " +
                            units::text(marks.dry));
    }
  }
  return marks;
}

Belief believed(const material::Growth& of_class, const Direction& direction, const Marks& marks,
                const MarkMoistures& at) {
  // Growth from dry to a reading is linear in A and d0: with r the share of the set still in,
  // L = A (1 - s) - d0 (1 - r s).
  const auto s = [&](double u) {
    return dryness_si(u, direction.fibre_full, direction.conditioned);
  };
  const double left = 1 - released_si(std::max(at.wettest, direction.wettest));
  const double s_dry = s(at.dry);
  const double sd = ruler_si / method::ten_percent_score * std::sqrt(2.0) / in_si(marks.dry);
  // Normal equations, the class first.
  const auto width = [](const material::Ranged<units::Strain>& r) {
    return std::max(
        1e-4, class_widened * (r.high - r.low).parts_of_one() / (2 * method::ten_percent_score));
  };
  const double free0 = of_class.free.value.parts_of_one();
  const double set0 = of_class.dried_in.value.parts_of_one();
  double aa = 1 / (width(of_class.free) * width(of_class.free));
  double bb = 1 / (width(of_class.dried_in) * width(of_class.dried_in));
  double ab = 0;
  double a = aa * free0;
  double b = bb * set0;
  const auto read = [&](const std::optional<units::Length>& reading, double u) {
    if (!reading) return;
    const double growth = in_si(*reading) / in_si(marks.dry) - 1;
    const double by_free = s_dry - s(u);
    const double by_set = left * s(u) - s_dry;
    const double weight = 1 / (sd * sd);
    aa += weight * by_free * by_free;
    ab += weight * by_free * by_set;
    bb += weight * by_set * by_set;
    a += weight * by_free * growth;
    b += weight * by_set * growth;
  };
  read(marks.damp, at.damp);
  read(marks.pulled, at.pulled);
  read(marks.waited, at.waited);
  read(marks.dried, at.dried);
  const double determinant = aa * bb - ab * ab;
  Belief belief;
  belief.free = (a * bb - b * ab) / determinant;
  belief.dried_in = (b * aa - a * ab) / determinant;
  if (belief.free < 0) {  // no paper shrinks when wetted once it is dried free
    belief.free = 0;
    belief.dried_in = b / bb;
  }
  belief.free_sd = std::sqrt(bb / determinant);
  belief.dried_in_sd = std::sqrt(aa / determinant);
  belief.correlation = -ab / std::sqrt(aa * bb);
  return belief;
}

}  // namespace dampline::size
