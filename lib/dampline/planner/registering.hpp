#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <dampline/planner/craft.hpp>
#include <dampline/planner/damping.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/size/follow.hpp>
#include <dampline/size/order.hpp>

/// Register as a plan and `dampline size` both reckon it.
namespace dampline::planner {

/// The plate of that name, which the session has.
[[nodiscard]] const session::Plate& plate_named(const session::Session& session,
                                                const std::string& name);

/// Two plates or more come onto one sheet.
[[nodiscard]] bool plates_meet(const session::Session& session);

/// The session's printing as the size of the sheet is worked out for it: the sheet laid to marks,
/// its long side first through the press, the usual stretch by it.
[[nodiscard]] size::Printing printing_of(const session::Session& session, const Craft& craft,
                                         const PaperCase& paper, const Damping& damping);

/// The plates so that what the sheet does between them hurts least. A plate is the key by its name;
/// without such a name, the last of the order at hand is.
[[nodiscard]] size::Order order_of(const session::Session& session);

/// Prints the plates in that order, unless the session has an order of its own. Returns the reason
/// when something changed.
std::optional<std::string> put_in_order(session::Session& session);

/// How far later images fall from the first, for the sheets of one plan.
class Registering {
 public:
  Registering(const session::Session& session, const Craft& craft, const PaperCase& paper,
              const Damping& damping, unsigned seed);

  /// Growth of the expected sheet (sample -1) or a likely one in a state it has come to.
  [[nodiscard]] size::Growth growth(int sample, const method::State& state) const;

  /// Plates on the sheets already, from days before; and how large a sheet was then, at its first
  /// pull (only when there are some).
  [[nodiscard]] int printed() const { return printed_; }
  [[nodiscard]] size::Growth image(int sample) const;

  /// Of the expected sheet; the chance is the mean over the likely ones. `passes` counts those
  /// through the press between the two pulls; one pair of growths a likely sheet.
  struct Pair {
    size::Growth first, later;
  };
  [[nodiscard]] Misfit misfit(const std::string& plate, int passes, const Pair& expected,
                              std::span<const Pair> likely) const;

  /// From the first pull to any later one of a sheet that is let go between them and kept covered;
  /// none when it is more than a day, or held.
  [[nodiscard]] std::optional<units::Duration> longest_between() const;
  /// The allowed wait in a sentence; empty when plates do not meet.
  [[nodiscard]] std::string wait_sentence() const;

 private:
  void go_on(const std::optional<session::FirstPull>& told, unsigned seed);
  [[nodiscard]] size::RegisterCase register_case(const std::string& plate, const Pair& growths,
                                                 units::Strain nip) const;

  size::Printing printing_;
  size::Way way_;
  size::Lag lag_;
  int printed_ = 0;
  std::vector<std::string> today_;
  size::Growth image_{};
  std::vector<size::Growth> images_;  // one a likely sheet
  size::SheetSize expected_;
  std::vector<size::SheetSize> likely_;
  std::vector<units::Strain> nips_;
};

}  // namespace dampline::planner
