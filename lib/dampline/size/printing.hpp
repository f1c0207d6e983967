#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/stage.hpp>
#include <dampline/size/register.hpp>
#include <dampline/size/spread.hpp>

/// What is to be printed in register, on what, in what room.
namespace dampline::size {

/// Ways of getting several plates onto one sheet.
enum class Way {
  held,      ///< one damping, the sheet trapped by the roller while the plates are changed
  released,  ///< one damping, the sheet taken off and kept covered between plates
  dried,     ///< dried after each plate and damped again
  dry,       ///< the first plate damp, then dried, the later ones on the dry sheet
};
inline constexpr std::array<Way, 4> ways{Way::held, Way::released, Way::dried, Way::dry};
[[nodiscard]] std::string word(Way way);   ///< "held", "released", "dried", "dry"
[[nodiscard]] std::string title(Way way);  ///< "held in the press"

enum class Laid {
  sheet,  ///< the sheet is laid to marks: its own margin moves too
  plate,  ///< the plate is laid to the image or into its plate mark
};
enum class Drying { boards, rack, tape, line };
enum class Travel { along_long_side, along_short_side };

struct PrintedPlate {
  std::string name;
  units::Length long_side;    ///< along the sheet's long side
  units::Length short_side;   ///< along its short side
  units::Duration between{};  ///< released: under cover before this pull, while it is inked
};

struct Printing {
  material::Stock stock;
  units::Length sheet_long;
  units::Length sheet_short;
  air::Climate room;
  Grain grain = Grain::unknown;
  Locate locate = Locate::corner;
  Laid laid = Laid::sheet;
  units::Length placing;
  units::Length tolerance;
  std::vector<PrintedPlate> plates;            ///< in printing order
  std::vector<method::Stage> damping;          ///< from dry to ready under cover
  units::Duration laying = units::minutes(1);  ///< open while it is laid to the marks
  units::Duration change = units::minutes(3);  ///< held: lifted while plates are changed, `assumed`
  Drying drying = Drying::boards;
  units::Pressure boards = units::pascal(1000);  ///< weight on the boards, `assumed`
  Travel travel = Travel::along_long_side;       ///< which side of the sheet enters the nip first
  units::Strain nip = usual_nip;                 ///< stretch of a first pass, `assumed`
  bool blank_pass = false;  ///< each sheet goes through the press once before it is printed
  Beliefs beliefs;          ///< from marks on the paper
  int samples = 64;
  unsigned seed = 1;
};

/// Throws units::OutOfRange or std::invalid_argument for what cannot be asked.
void check(const Printing& p);

/// How firmly a way of drying holds the sheet, the mean over it: boards by friction out to the
/// nearest edge of both sides, tape wholly, rack and line not at all.
[[nodiscard]] double restraint(const Printing& p);

/// The register case of a later plate: what locates it and how far off, no growth yet. Held, half
/// of the placing error is taken: the plate alone is laid again, `assumed`.
[[nodiscard]] RegisterCase case_of(const Printing& p, Way way, const PrintedPlate& plate,
                                   Grain grain);

/// The same for drift alone: the tolerance less the placing error.
[[nodiscard]] RegisterCase drift_case(const RegisterCase& c);

}  // namespace dampline::size
