#pragma once

#include <map>
#include <set>
#include <utility>
#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/people.hpp>

/// Builds a draft piece by piece; used by draft() only.
namespace dampline::planner {

inline constexpr int no_plate = -1;

/// Whole half minutes, rounded up.
[[nodiscard]] HalfMinutes half_minutes(units::Duration t);

class Builder {
 public:
  Builder(const session::Session& session, const Craft& craft, const Treatment& treatment,
          const Extent& extent);
  Draft build();

 private:
  // Resources stand in the plan and in the problem under the same index.
  struct Indices {
    std::vector<int> person, press, plate;
    int tub = -1;
    int bench = -1;
    int hot_plate = -1;
    int drying = -1;
  };

  [[nodiscard]] HalfMinutes length(int a) const {
    return HalfMinutes(d_.problem.activities[static_cast<std::size_t>(a)].duration);
  }
  void after_source(int a, HalfMinutes lag) {
    scheduling::at_least(d_.problem, d_.problem.source, a, lag.count());
  }
  // b starts when a is done, or later.
  void in_turn(int a, int b) { scheduling::at_least(d_.problem, a, b, length(a).count()); }
  // The moment `then` comes at least (at most) `lag` after the moment `first`.
  void least(const Moment& first, const Moment& then, HalfMinutes lag) {
    scheduling::at_least(d_.problem, first.activity, then.activity,
                         (first.offset + lag - then.offset).count());
  }
  void most(const Moment& first, const Moment& then, HalfMinutes lag) {
    scheduling::at_most(d_.problem, first.activity, then.activity,
                        (first.offset + lag - then.offset).count());
  }
  [[nodiscard]] Moment end_of(int a) const { return {a, length(a)}; }
  [[nodiscard]] HalfMinutes paced(HalfMinutes t, int person) const {
    return half_minutes(units::seconds(t.count() * 30.0 * pace(person)));
  }
  [[nodiscard]] double pace(int person) const {
    const auto& p = s_.people[static_cast<std::size_t>(person)];
    return p.learner ? craft_.learner_pace : p.pace;
  }
  [[nodiscard]] units::Size size_for(int plate) const {
    return plate == no_plate ? sheet_size_ : s_.plates[static_cast<std::size_t>(plate)].size;
  }
  [[nodiscard]] int wetting_hand() const { return teams_.front().handler; }

  int activity(Block block);
  // A block holds each resource it needs from its first part to its last. Plates and the tub are
  // passed on by lags instead: they are held between blocks too.
  void hold(std::vector<scheduling::Use>& uses, const Use& use) const;
  // A step done by a person, for a plate (its size, its own times) or a sheet.
  Part part(const std::string& kind, int person, int plate = no_plate, double times = 1) const;
  int resource(const std::string& name, ResourceKind kind, int capacity);
  void name_resources();
  // People and presses that are not there all day.
  void keep_hours();
  [[nodiscard]] bool is_there(int person, HalfMinutes from, HalfMinutes until) const;
  void place_breaks();
  void place_rests();
  // Rests within one stretch of a person's day between breaks.
  void rest_within(int person, HalfMinutes from, HalfMinutes until);
  [[nodiscard]] HalfMinutes longest_block(int person) const;
  // Which plate goes on which sheet, in printing order.
  void list_pulls();
  [[nodiscard]] int plate_named(const std::string& name) const;
  [[nodiscard]] bool inks_too(int person) const;
  // Clean-hands work begins with a wash for whoever also inks.
  void wash_first(Block& block, int person) const;
  [[nodiscard]] bool held_by(int a, int person) const;
  void finish();

  void set_up();
  [[nodiscard]] bool warms() const;
  // Who sets and closes a press, -1 where it stands idle; who pulls a print, and where.
  [[nodiscard]] int press_hand(int press) const;
  void share_out(DraftPull& pull) const;
  void mix_ink(int plate, const std::vector<int>& clean);
  void clean_up();

  void wet_the_sheets();
  void reword(Part& part) const;  ///< for a method of its own
  int damp_batch(std::size_t b, int previous);
  void before_ink(int a, int by);
  int soak_batch(std::size_t b, int previous);
  // Lifts sheets out of the tub one after the other, drains and blots them, and covers them.
  int blot_sheets(const std::vector<int>& sheets, int loaded, int by);

  // One visit to the press: pulls that follow each other on one sheet.
  struct PressRun {
    std::size_t first = 0;          // of the draft's pulls
    std::size_t end = 0;            // one past the last
    std::vector<int> charged;       // the inking activity of each
    std::vector<HalfMinutes> laid;  // offsets within the block, one a pull
    std::vector<HalfMinutes> pulled;
    std::vector<HalfMinutes> off;  // the plate leaves the sheet
    HalfMinutes length{};
    Block block;
  };

  void print();
  int charge(const DraftPull& pull);
  [[nodiscard]] HalfMinutes open_time(int plate) const;
  // Appends a part of the run, with the press held.
  void add(PressRun& run, Part part, const DraftPull& pull) const;
  // Blankets squared and the catcher felt changed when they are due.
  void tend_press(PressRun& run, int by);
  void lay_and_pull(PressRun& run, int by) const;
  void lift_and_lay_away(PressRun& run, int by) const;
  void tie(const PressRun& run, int a);

  const session::Session& s_;
  const Craft& craft_;
  const Treatment& t_;
  Extent extent_;
  std::vector<Team> teams_;
  std::vector<Lane> lanes_;  // those in use
  units::Size sheet_size_;
  std::vector<bool> today_;  // by plate: it is printed today
  Draft d_;
  Indices ix_;
  int lay_out_ = -1;
  int tear_ = -1;
  int hot_plate_ = -1;
  int rests_ = 0;
  std::vector<int> before_printing_;
  std::map<int, int> mixed_;                // by plate
  std::vector<std::vector<Moment>> freed_;  // when each plate came off, in turn
  // By press: pulls since its blankets were squared, and since it had a dry catcher.
  std::vector<int> since_square_, since_dry_;
  std::map<int, int> last_charge_;                    // by plate
  std::map<int, int> last_run_;                       // by first plate
  std::map<std::pair<int, int>, int> last_at_press_;  // by press and first plate
  std::map<int, int> other_press_set_;                // by press beyond the first lane's
  std::map<int, int> last_on_sheet_;                  // by sheet
  std::map<int, Moment> first_on_sheet_;              // by sheet: its first pull
};

}  // namespace dampline::planner
