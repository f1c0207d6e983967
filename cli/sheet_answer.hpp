#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/run.hpp>
#include <dampline/readiness/window.hpp>
#include <dampline/size/curl.hpp>
#include <dampline/size/strain.hpp>

/// What `dampline sheet` finds out, and the two ways it is shown.
namespace dampline::cli {

struct SheetMoment {
  method::Sample sample;
  size::Growth growth;
  size::Curl curl{};
  units::Moisture low{};  ///< 10 and 90 % of the sampled sheets' means; the mean when none
  units::Moisture high{};
};

struct SheetAnswer {
  material::Stock stock;
  std::vector<std::string> defaults_used;
  air::Climate climate;                ///< of a log: the mean until the hold
  bool logged = false;                 ///< the air goes by a log
  std::vector<std::string> air_notes;  ///< what is used of it
  std::vector<method::Stage> stages;   ///< all that the curve shows
  std::size_t wet_stages = 0;          ///< of them until the last blot: then the window begins
  method::Stage hold;                  ///< held in this to the window's end
  std::vector<SheetMoment> curve;
  std::vector<std::size_t> stage_ends;  ///< index into the curve
  readiness::Band band;
  readiness::Forecast forecast;  ///< times from the last blot
  units::Duration blotted{};     ///< when that was, from the start
  units::Duration horizon{};
  bool drying = false;  ///< a print that dries: no window, but when it is dry
  std::optional<units::Duration> dry, dry_early, dry_late;
  double balance_error = 0;
  int samples = 0;
  std::vector<std::string> warnings;
};

[[nodiscard]] std::string sheet_json(const SheetAnswer& answer);
[[nodiscard]] std::string sheet_text(const SheetAnswer& answer, int columns, bool utf8);

}  // namespace dampline::cli
