#include <algorithm>
#include <array>

#include <dampline/size/wait.hpp>

namespace dampline::size {

using units::in_si;

namespace {

struct Pace {
  double until;  // s since the sheet was left
  double every;  // s
};
constexpr std::array<Pace, 3> paces{{{1800, 20}, {10800, 60}, {90 * 86400.0, 600}}};

// Follows the worst corner of every case until all are well out.
class Follower {
 public:
  Follower(const Damp& from, std::span<const RegisterCase> cases)
      : size_(from.size),
        cases_(cases.begin(), cases.end()),
        share_(from.state.share),
        before_(cases.size()),
        for_good_(cases.size()),
        found_(cases.size()) {}

  void look(double seconds, const method::Sample& s) {
    wet(size_, s.driest);
    const Growth now = growth(size_, method::equal_cells(s.profile, share_));
    for (std::size_t i = 0; i < cases_.size(); ++i) {
      cases_[i].later = now;
      const double tolerance = in_si(cases_[i].tolerance);
      const double over = in_si(worst_corner(cases_[i])) - tolerance;
      if (over <= 0) {
        found_[i].reset();  // a sheet fresh from the nip evens out and may come back
      } else if (!found_[i]) {
        const double part = seconds <= 0 ? 0 : before_[i] / (before_[i] - over);
        found_[i] = units::seconds(last_ + part * (seconds - last_));
      }
      before_[i] = over;
      for_good_[i] = over > tolerance;
    }
    last_ = seconds;
  }

  [[nodiscard]] bool all_out() const {
    return std::all_of(for_good_.begin(), for_good_.end(), [](bool out) { return out; });
  }
  [[nodiscard]] std::vector<std::optional<units::Duration>> found() const { return found_; }

 private:
  SheetSize size_;
  std::vector<RegisterCase> cases_;
  std::vector<double> share_;
  std::vector<double> before_;
  std::vector<bool> for_good_;  // out by twice the tolerance: not followed further
  std::vector<std::optional<units::Duration>> found_;
  double last_ = 0;
};

}  // namespace

Growth growth_now(const SheetSize& size, const method::State& state) {
  return growth(size, method::equal_cells(state.moisture, state.share));
}

Damp after(Damp damp, std::span<const method::Stage> stages) {
  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  damp.state = method::run(damp.sheet, std::move(damp.state), stages, damp.room, ends_only).end;
  wet(damp.size, units::Moisture(damp.state.wetted_through));
  return damp;
}

std::vector<std::optional<units::Duration>> out_after(const Damp& from, const method::Stage& left,
                                                      std::span<const RegisterCase> cases) {
  Follower follower(from, cases);
  const double whole = in_si(left.duration);
  double clock = 0;
  method::State state = from.state;
  for (const auto& pace : paces) {
    if (clock >= whole) break;
    // In parts, so that a sheet soon out is not followed for days.
    const double most = pace.every * 60;
    while (clock < std::min(whole, pace.until) && !follower.all_out()) {
      method::Stage part = left;
      part.duration = units::seconds(std::min(most, std::min(whole, pace.until) - clock));
      method::RunOptions options;
      options.sample_every = units::seconds(pace.every);
      options.profile = true;
      auto history = method::run(from.sheet, std::move(state), {&part, 1}, from.room, options);
      for (const auto& sample : history.curve) {
        if (in_si(sample.at) > 0 || clock <= 0) follower.look(clock + in_si(sample.at), sample);
      }
      clock += in_si(part.duration);
      state = std::move(history.end);
    }
  }
  return follower.found();
}

Lag max_lag(const Damp& after_first_pull, std::span<const RegisterCase> later_plates,
            units::Duration horizon) {
  const auto shortest = [&](method::Arrangement a) -> std::optional<units::Duration> {
    std::optional<units::Duration> least;
    for (const auto& t : out_after(after_first_pull, method::left(a, horizon), later_plates)) {
      if (t && (!least || *t < *least)) least = t;
    }
    return least;
  };
  return {shortest(method::Arrangement::bench), shortest(method::Arrangement::covered)};
}

}  // namespace dampline::size
