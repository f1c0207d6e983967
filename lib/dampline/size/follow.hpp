#pragma once

#include <vector>

#include <dampline/size/printing.hpp>
#include <dampline/size/wait.hpp>

/// One sheet through all its plates, in one way.
namespace dampline::size {

/// The sheet at a pull.
struct AtPull {
  Growth growth;
  units::Moisture mean{};
  SheetSize size;
  double nip = 0;  ///< stretch by the press it has had by then, a fraction; it stays: `assumed`
};

struct Passage {
  std::vector<AtPull> pulls;  ///< one a plate
  std::vector<Damp> ready;    ///< where its wait is counted from, one a plate: the sheet after the
                              ///< first pull, or damped again; that of the first is not used
  Growth finished;            ///< dry again after the last plate
  double finished_nip = 0;
};

/// What the sheet of one sample is like; the expected one has scores of zero.
struct Sampled {
  method::Sheet sheet;
  air::Climate room;
  air::Climate room_again;  ///< of a second damping
  SheetSize size;
  units::Strain nip{};
  method::Draw hands;
  method::Draw hands_again;
};
[[nodiscard]] Sampled expected(const Printing& p);
/// p.samples of them.
[[nodiscard]] std::vector<Sampled> sampled(const Printing& p);

/// Damped and laid, at its first pull: the same in every way of going on.
[[nodiscard]] Damp at_first_pull(const Printing& p, const Sampled& s);
[[nodiscard]] Passage follow(const Printing& p, const Sampled& s, const Damp& first, Way way);

/// The register case of plate `k` with what the sheet did, for a grain that is known.
[[nodiscard]] RegisterCase case_at(const Printing& p, const Passage& passage, Way way,
                                   std::size_t plate, Grain grain);

/// The maximum lag from the first pull of an expected sheet to any later one, in that way of going
/// on (not dried, not dry: there it is no matter of minutes). The press's stretch is left out.
[[nodiscard]] Lag max_lag(const Printing& p, Way way, units::Duration horizon = units::hours(24));

}  // namespace dampline::size
