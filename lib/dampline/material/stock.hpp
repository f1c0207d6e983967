#pragma once

#include <string>
#include <vector>

#include <dampline/units/quantity.hpp>

/// What is known of a paper, blotter, felt or cloth: values a person can read, each with its range
/// and where it comes from. Loaded from data/stocks.toml or described in a session file.
namespace dampline::material {

/// A number with the range it may have (about a 10-90 % band) and where it comes from: a source
/// key, `common practice, no published source`, `assumed` or `from memory`.
template <class Quantity>
struct Ranged {
  Quantity value{};
  Quantity low{};
  Quantity high{};
  std::string basis;
};

enum class Kind { paper, blotter, newsprint, felt, towel, tissue };
enum class Furnish { cotton, rag, kozo, gampi, wood, mixed, wool };
enum class Making { hand, mould, machine };
enum class Sizing { waterleaf, soft, internal, hard, tub };

/// Growth constants of one direction of the sheet (reference law: docs/model.md, size).
struct Growth {
  Ranged<units::Strain> free;      ///< A: shrinkage of a freely dried sheet, wet to 50 % RH
  Ranged<units::Strain> dried_in;  ///< d0: how much longer the sheet is than if dried free
};

struct Stock {
  std::string name;    ///< "mould-made cotton, internal size, 300 g/m2"
  std::string remark;  ///< what a printer should know of it; may be empty
  Kind kind = Kind::paper;
  Furnish furnish = Furnish::cotton;
  Making making = Making::mould;
  Sizing sizing = Sizing::internal;
  Ranged<units::Grammage> grammage;    ///< as sold, conditioned at 50 % RH
  Ranged<units::Length> thickness;     ///< dry
  Ranged<units::Grammage> cobb60;      ///< ISO 535, 60 s, one side; unused for waterleaf
  Ranged<units::Moisture> accessible;  ///< u_acc: where a sheet in the tub levels off
  Ranged<double> swelling;             ///< wet thickness over dry thickness
  Ranged<double> isotherm_scale;       ///< s on the reference isotherm; cotton rag 1
  Ranged<double> pore_ratio;  ///< suction of this sheet over filter paper's, above fibre saturation
  Ranged<units::Diffusivity> vapour;      ///< effective vapour diffusivity through the thickness
  Ranged<units::Duration> wetting_delay;  ///< before the size lets water in
  Growth along;                           ///< along the grain
  Growth across;                          ///< across the grain
  /// Where the fibres themselves are full: a wetter sheet grows no more.
  Ranged<units::Moisture> fibre_full{units::Moisture(0.50), units::Moisture(0.42),
                                     units::Moisture(0.60), "from memory"};
};

}  // namespace dampline::material
