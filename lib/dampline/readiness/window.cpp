#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include <dampline/method/over_samples.hpp>
#include <dampline/readiness/window.hpp>

namespace dampline::readiness {

using units::in_si;

namespace {

struct Track {
  std::optional<double> opens;  // s
  std::optional<double> closes;
  method::Sample at_open;
  method::Sample at_close;
  std::string why;
};

// Follows one part of the sheet through the hold until it has been ready and is so no more.
Track follow(const method::Sheet& sheet, const method::State& state, const method::Stage& hold,
             const air::Room& room, const Band& band, const WindowOptions& options, bool rim) {
  Track track;
  method::State now = state;
  double clock = 0;
  double chunk = 600;
  const double horizon = in_si(options.horizon);
  double margin_before = 0;
  bool first = true;
  method::Sample before;
  while (clock < horizon) {
    const double seconds = std::min(chunk, horizon - clock);
    std::array<method::Stage, 1> stage{hold};
    stage[0].duration = units::seconds(seconds);
    method::RunOptions run_options;
    run_options.sample_every = units::seconds(seconds / options.samples_per_chunk);
    run_options.rim = rim;
    run_options.since = units::seconds(clock);
    const method::History history = method::run(sheet, now, stage, room, run_options);
    for (const method::Sample& s : history.curve) {
      const double margin = margins(s, sheet, band).least();
      const double at = in_si(s.at);
      const auto crossing = [&] {
        const double from = in_si(before.at);
        return from + (at - from) * margin_before / (margin_before - margin);
      };
      if (!track.opens && margin >= 0) {
        track.opens = first || margin_before >= 0 ? at : crossing();
        track.at_open = s;
      } else if (track.opens && margin < 0) {
        track.closes = crossing();
        track.at_close = before;
        track.why = judge(s, sheet, band).reason;
        return track;
      }
      margin_before = margin;
      before = s;
      first = false;
    }
    // Long past the band and drying: it will not come back.
    const bool past = before.mean < band.low.value && units::in_grams_per_m2(before.film) < 1;
    now = history.end;
    clock += seconds;
    chunk *= 2;
    if (!track.opens && past) break;
  }
  track.at_close = before;
  return track;
}

std::optional<units::Duration> seconds(const std::optional<double>& s) {
  if (!s) return std::nullopt;
  return units::seconds(*s);
}

// The value below which `share` of the sorted lie; none when it falls among the absent ones.
std::optional<units::Duration> quantile(std::vector<double> present, std::size_t absent_above,
                                        double share) {
  std::sort(present.begin(), present.end());
  const std::size_t all = present.size() + absent_above;
  if (all == 0) return std::nullopt;
  const auto at = static_cast<std::size_t>(std::lround(share * static_cast<double>(all - 1)));
  if (at >= present.size()) return std::nullopt;
  return units::seconds(present[at]);
}

}  // namespace

Window window(const method::Sheet& sheet, const method::State& state, const method::Stage& hold,
              const air::Room& room, const Band& band, const WindowOptions& options) {
  Window w;
  w.at_start = judge(state, sheet, band);
  Track middle = follow(sheet, state, hold, room, band, options, false);
  w.closed_by = Part::middle;
  std::optional<double> opens = middle.opens;
  std::optional<double> closes = middle.closes;
  w.at_open = middle.at_open;
  w.at_close = middle.at_close;
  w.closed_why = middle.why;
  const bool open_to_air = hold.arrangement == method::Arrangement::bench ||
                           hold.arrangement == method::Arrangement::hang ||
                           hold.arrangement == method::Arrangement::rack;
  if (options.with_rim && open_to_air && opens) {
    const Track rim = follow(sheet, state, hold, room, band, options, true);
    if (!rim.opens) {
      opens.reset();
      w.closed_by = Part::rim;
    } else {
      if (*rim.opens > *opens) {
        opens = rim.opens;
        w.at_open = rim.at_open;
      }
      if (rim.closes && (!closes || *rim.closes < *closes)) {
        closes = rim.closes;
        w.at_close = rim.at_close;
        w.closed_by = Part::rim;
        w.closed_why = "the rim: " + rim.why;
      }
      if (closes && *closes <= *opens) opens.reset();
    }
  }
  w.opens = seconds(opens);
  w.closes = opens ? seconds(closes) : std::nullopt;
  return w;
}

Window window(const method::Sheet& sheet, const method::State& state,
              std::span<const method::Stage> stages, const air::Room& room, const Band& band,
              const WindowOptions& options) {
  if (stages.empty()) throw std::invalid_argument("a window needs a stage to be held in");
  Window whole;
  whole.at_start = judge(state, sheet, band);
  method::State now = state;
  units::Duration before{};
  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  for (const method::Stage& stage : stages) {
    const bool last = &stage == &stages.back();
    WindowOptions here = options;
    if (!last) {
      here.horizon = stage.duration;
      if (!(in_si(stage.duration) > 0)) continue;
    }
    Window w = window(sheet, now, stage, room.starting(before), band, here);
    const auto shifted = [&](std::optional<units::Duration> t) {
      if (t) *t += before;
      return t;
    };
    if (!whole.opens && w.opens) {
      whole.opens = shifted(w.opens);
      whole.at_open = w.at_open;
      whole.at_open.at += before;
    }
    if (whole.opens) {
      whole.at_close = w.opens ? w.at_close : whole.at_close;
      if (w.opens) whole.at_close.at += before;
      whole.closed_by = w.closed_by;
      whole.closed_why = w.closed_why;
      // Ready before this stage, but not in it: closed where it began.
      const bool shut = !w.opens || (before > units::Duration{} && *w.opens > units::Duration{} &&
                                     *whole.opens < before);
      if (shut) {
        whole.closes = before;
        return whole;
      }
      if (w.closes) {
        whole.closes = shifted(w.closes);
        return whole;
      }
    }
    if (!last) {
      now = method::run(sheet, now, std::span(&stage, 1), room.starting(before), ends_only).end;
      before += stage.duration;
    }
  }
  return whole;
}

Forecast forecast(const material::Stock& stock, units::Length width, units::Length height,
                  std::span<const method::Stage> stages, const method::Stage& hold,
                  const air::Climate& climate, const Band& band,
                  std::span<const method::Draw> draws, const WindowOptions& options) {
  const auto one = [&](const method::Draw& draw) {
    const method::Sheet sheet = method::drawn(stock, draw, width, height);
    const air::Climate room = method::drawn(climate, draw);
    const auto own = method::drawn(std::vector<method::Stage>(stages.begin(), stages.end()), draw);
    method::RunOptions ends_only;
    ends_only.sample_every = units::seconds(0);
    const auto history = method::run(sheet, method::conditioned(sheet, room), own, room, ends_only);
    return window(sheet, history.end, hold, room, band, options);
  };
  std::vector<Window> sampled(draws.size());
  method::over_samples(draws.size(), [&](std::size_t k) { sampled[k] = one(draws[k]); });
  return summed_up(one({}), std::move(sampled));
}

Forecast summed_up(Window likely, std::vector<Window> sampled) {
  Forecast f;
  f.likely = std::move(likely);
  f.sampled = std::move(sampled);
  std::vector<double> opens;
  std::vector<double> closes;
  std::size_t unclosed = 0;
  for (const Window& w : f.sampled) {
    if (!w.opens) continue;
    opens.push_back(in_si(*w.opens));
    if (w.closes) {
      closes.push_back(in_si(*w.closes));
    } else {
      ++unclosed;
    }
  }
  f.opens_early = quantile(opens, 0, 0.1);
  f.opens_late = quantile(opens, 0, 0.9);
  f.closes_early = quantile(closes, unclosed, 0.1);
  f.closes_late = quantile(closes, unclosed, 0.9);
  f.opening = units::Chance(f.sampled.empty() ? (f.likely.opens ? 1.0 : 0.0)
                                              : static_cast<double>(opens.size()) /
                                                    static_cast<double>(f.sampled.size()));
  return f;
}

units::Chance chance_ready(const Forecast& f, units::Duration at) {
  if (f.sampled.empty()) return units::Chance(0);
  std::size_t ready = 0;
  for (const Window& w : f.sampled) {
    if (w.opens && *w.opens <= at && (!w.closes || at < *w.closes)) ++ready;
  }
  return units::Chance(static_cast<double>(ready) / static_cast<double>(f.sampled.size()));
}

}  // namespace dampline::readiness
