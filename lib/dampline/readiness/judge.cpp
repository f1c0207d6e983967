#include <algorithm>

#include <dampline/readiness/judge.hpp>

namespace dampline::readiness {

namespace {
constexpr double dull_film = 1e-3;  // kg/m2: less lies in the hollows of the surface, `assumed`
}

std::string word(Verdict verdict) {
  switch (verdict) {
    case Verdict::too_wet:
      return "too wet";
    case Verdict::uneven:
      return "uneven";
    case Verdict::ready:
      return "ready";
    case Verdict::too_dry:
      break;
  }
  return "too dry";
}

double Margins::least() const { return std::min({film, shine, high, low, soft, even}); }

Margins margins(const method::Sample& s, const method::Sheet& sheet, const Band& band) {
  const double saturation = sheet.porous->saturation;
  const double mean = s.mean.parts_of_one();
  const double driest = s.driest.parts_of_one();
  return {(dull_film - units::in_si(s.film)) / sheet.porous->dry,
          band.surface.value * saturation - s.surface.parts_of_one(),
          band.high.value.parts_of_one() - mean,
          mean - band.low.value.parts_of_one(),
          driest - band.driest.value.parts_of_one(),
          band.spread.value.parts_of_one() - (s.wettest.parts_of_one() - driest)};
}

Judgement judge(const method::Sample& sample, const method::Sheet& sheet, const Band& band) {
  const Margins m = margins(sample, sheet, band);
  if (m.film < 0) return {Verdict::too_wet, "water stands on the surface: blot it"};
  if (m.high < 0) return {Verdict::too_wet, "wetter than " + band.process + " takes: blot again"};
  if (m.low < 0) {
    return {Verdict::too_dry, "drier than " + band.process + " needs: mist it and cover it"};
  }
  if (m.shine < 0) return {Verdict::too_wet, "the surface still shines: blot again or let it rest"};
  if (m.even < 0) return {Verdict::uneven, "wetter in one place than another: rest it covered"};
  if (m.soft < 0) {
    return {Verdict::too_dry, "not soft through: the driest place needs water; mist and cover it"};
  }
  return {Verdict::ready, "limp, cool, no shine"};
}

Judgement judge(const method::State& state, const method::Sheet& sheet, const Band& band) {
  return judge(method::sample_of(state), sheet, band);
}

}  // namespace dampline::readiness
