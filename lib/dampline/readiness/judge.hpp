#pragma once

#include <string>

#include <dampline/method/sheet.hpp>
#include <dampline/readiness/band.hpp>

namespace dampline::readiness {

enum class Verdict {
  too_wet,
  uneven,  ///< neither too wet nor too dry as a whole, but not yet the same throughout
  ready,
  too_dry,
};
[[nodiscard]] std::string word(Verdict verdict);  ///< "too wet", "uneven", "ready", "too dry"

/// How far a sheet is inside each bound of a band, g/g; negative is outside.
struct Margins {
  double film;   ///< water standing on a face, 1 g/m2 of it being too much, as g/g of the sheet
  double shine;  ///< below the surface bound
  double high;   ///< mean below the upper bound
  double low;    ///< mean above the lower bound
  double soft;   ///< driest place above its bound
  double even;   ///< spread below its bound
  [[nodiscard]] double least() const;
};
[[nodiscard]] Margins margins(const method::Sample& sample, const method::Sheet& sheet,
                              const Band& band);

struct Judgement {
  Verdict verdict = Verdict::ready;
  std::string reason;  ///< a sentence a printer can act on
};
/// Is the sheet printable now? The touch test has the last word: limp, cool, no shine.
[[nodiscard]] Judgement judge(const method::Sample& sample, const method::Sheet& sheet,
                              const Band& band);
[[nodiscard]] Judgement judge(const method::State& state, const method::Sheet& sheet,
                              const Band& band);

}  // namespace dampline::readiness
