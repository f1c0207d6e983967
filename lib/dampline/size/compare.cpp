#include <algorithm>
#include <cmath>
#include <functional>

#include <dampline/method/over_samples.hpp>
#include <dampline/method/scores.hpp>
#include <dampline/size/compare.hpp>

namespace dampline::size {

using units::in_si;

namespace {

constexpr double low_share = 0.1;
constexpr double high_share = 0.9;
constexpr double as_often = 0.03;  // chances nearer than this are alike

// One sampled sheet gone through every way, with the waits of its later plates.
struct Gone {
  std::vector<Passage> passage;  // one a way
  struct Wait {
    std::vector<std::optional<units::Duration>> bench, covered;  // one a later plate
  };
  std::vector<Wait> wait;
};

std::vector<Way> ways_for(const Printing& p) {
  if (p.plates.size() == 1) return {Way::released};
  return {ways.begin(), ways.end()};
}

RegisterCase without_nip(RegisterCase c) {
  c.nip_long = units::Strain(0);
  c.nip_short = units::Strain(0);
  return c;
}

std::vector<std::optional<units::Duration>> waits(const Printing& p, const Passage& passage,
                                                  Way way, Grain grain, method::Arrangement a,
                                                  double hours) {
  const auto stage = method::left(a, units::hours(hours));
  std::vector<RegisterCase> cases;
  for (std::size_t k = 1; k < p.plates.size(); ++k) {
    cases.push_back(drift_case(without_nip(case_at(p, passage, way, k, grain))));
  }
  if (way != Way::dried) return out_after(passage.ready.front(), stage, cases);
  std::vector<std::optional<units::Duration>> all;
  for (std::size_t k = 0; k < cases.size(); ++k) {
    const auto one = out_after(passage.ready[k + 1], stage, {&cases[k], 1});
    all.push_back(one.front());
  }
  return all;
}

Gone gone(const Printing& p, const Sampled& s, const std::vector<Way>& all) {
  Gone g;
  const Damp first = at_first_pull(p, s);
  for (const Way way : all) g.passage.push_back(follow(p, s, first, way));
  return g;
}

void add_waits(const Printing& p, const std::vector<Way>& all, Grain grain, Gone& g) {
  g.wait.clear();
  for (std::size_t w = 0; w < all.size(); ++w) {
    Gone::Wait wait;
    if (all[w] != Way::dry && p.plates.size() > 1) {
      wait.bench = waits(p, g.passage[w], all[w], grain, method::Arrangement::bench, bench_hours);
      if (all[w] != Way::held) {
        wait.covered =
            waits(p, g.passage[w], all[w], grain, method::Arrangement::covered, covered_hours);
      }
    }
    g.wait.push_back(std::move(wait));
  }
}

template <class Quantity, class Get>
Likely<Quantity> likely(Quantity value, const std::vector<Gone>& all, Get get) {
  if (all.empty()) return {value, value, value};
  std::vector<double> values;
  for (const auto& g : all) values.push_back(get(g));
  return {value, Quantity(method::at_share(values, low_share)),
          Quantity(method::at_share(values, high_share))};
}

// The longest wait that a share of the sheets still has; sheets never out count as longer than all.
std::optional<units::Duration> wait_at(
    const std::vector<Gone>& all, double share,
    const std::function<std::optional<units::Duration>(const Gone&)>& get) {
  std::vector<double> values;
  for (const auto& g : all) {
    const auto t = get(g);
    values.push_back(t ? in_si(*t) : 1e12);
  }
  const double t = method::at_share(values, share);
  if (t > 1e9) return std::nullopt;
  return units::seconds(t);
}

AllowedWait allowed_wait(const Gone& one, const std::vector<Gone>& all,
                         const std::function<std::optional<units::Duration>(const Gone&)>& get) {
  AllowedWait a;
  a.value = get(one);
  a.low = all.empty() ? a.value : wait_at(all, low_share, get);
  a.high = all.empty() ? a.value : wait_at(all, high_share, get);
  return a;
}

class Comparing {
 public:
  Comparing(const Printing& p, const std::vector<Way>& all, Grain grain, const Gone& one,
            const std::vector<Gone>& many)
      : p_(p), ways_(all), grain_(grain), one_(one), many_(many) {}

  Comparison compared() const {
    Comparison c;
    c.grain = grain_;
    for (std::size_t w = 0; w < ways_.size(); ++w) c.ways.push_back(of_way(w));
    return c;
  }

  // Worst corner of any later plate on one sheet.
  [[nodiscard]] double worst_of_print(const Gone& g, std::size_t w) const {
    double worst = 0;
    for (std::size_t k = 1; k < p_.plates.size(); ++k) {
      worst = std::max(worst, in_si(worst_corner(at(g, w, k))));
    }
    return worst;
  }

 private:
  [[nodiscard]] RegisterCase at(const Gone& g, std::size_t w, std::size_t k) const {
    return case_at(p_, g.passage[w], ways_[w], k, grain_);
  }

  WayAnswer of_way(std::size_t w) const {
    WayAnswer a;
    a.way = ways_[w];
    for (std::size_t k = 0; k < p_.plates.size(); ++k) a.pulls.push_back(of_pull(w, k));
    a.all = all_within(w);
    a.finished = finished(p_, one_.passage[w], grain_);
    return a;
  }

  PullAnswer of_pull(std::size_t w, std::size_t k) const {
    PullAnswer a;
    a.plate = p_.plates[k].name;
    const auto& pull = one_.passage[w].pulls[k];
    a.moisture = likely(pull.mean, many_,
                        [&](const Gone& g) { return g.passage[w].pulls[k].mean.parts_of_one(); });
    a.along = likely(pull.growth.along, many_, [&](const Gone& g) {
      return g.passage[w].pulls[k].growth.along.parts_of_one();
    });
    a.across = likely(pull.growth.across, many_, [&](const Gone& g) {
      return g.passage[w].pulls[k].growth.across.parts_of_one();
    });
    if (k > 0) a.later = of_later(w, k);
    return a;
  }

  LaterPull of_later(std::size_t w, std::size_t k) const {
    LaterPull l;
    const RegisterCase c = at(one_, w, k);
    l.misfit = misfit(c);
    std::vector<double> worst;
    for (const auto& g : many_) worst.push_back(in_si(worst_corner(at(g, w, k))));
    l.worst = {l.misfit.worst, l.misfit.worst, l.misfit.worst};
    if (!many_.empty()) {
      l.worst.low = units::metres(method::at_share(worst, low_share));
      l.worst.high = units::metres(method::at_share(worst, high_share));
    }
    RegisterCase press = c;
    press.later = press.first;
    l.by_press = worst_corner(press);
    l.scale = change(c, grain_);
    l.within = mean_chance(w, k, {units::Strain(0), units::Strain(0)});
    l.within_scaled = mean_chance(w, k, l.scale);
    waits_of(w, k, l);
    moisture_of(w, k, l);
    return l;
  }

  void waits_of(std::size_t w, std::size_t k, LaterPull& l) const {
    const auto bench = [w, k](const Gone& g) { return g.wait[w].bench[k - 1]; };
    const auto covered = [w, k](const Gone& g) { return g.wait[w].covered[k - 1]; };
    if (!one_.wait[w].bench.empty()) l.bench = allowed_wait(one_, many_, bench);
    if (!one_.wait[w].covered.empty()) l.covered = allowed_wait(one_, many_, covered);
  }

  void moisture_of(std::size_t w, std::size_t k, LaterPull& l) const {
    const auto& pulls = one_.passage[w].pulls;
    l.moisture = allowed_moisture(drift_case(without_nip(at(one_, w, k))), pulls[k].size);
    // The sheet that is printed dry has the moisture of the room, in register there or not.
    if (l.moisture && ways_[w] == Way::dry) {
      const auto now = pulls[k].mean;
      const bool inside = (!l.moisture->driest || now >= *l.moisture->driest) &&
                          (!l.moisture->wettest || now <= *l.moisture->wettest);
      if (!inside) l.moisture.reset();
    }
    if (!l.moisture) return;
    const double first = pulls.front().mean.parts_of_one();
    const auto apart = [&](const std::optional<units::Moisture>& edge, double sign) {
      return edge ? std::optional(units::Moisture(sign * (first - edge->parts_of_one())))
                  : std::nullopt;
    };
    l.drier = apart(l.moisture->driest, 1);
    l.wetter = apart(l.moisture->wettest, -1);
  }

  // Chance that plate k is in register, over the likely sheets, when it was cut larger by `scale`.
  units::Chance mean_chance(std::size_t w, std::size_t k, const Sides& scale) const {
    const auto scaled = [&](RegisterCase c) {
      c.nip_long = c.nip_long - scale.long_way;
      c.nip_short = c.nip_short - scale.short_way;
      return misfit(c).within.parts_of_one();
    };
    if (many_.empty()) return units::Chance(scaled(at(one_, w, k)));
    double sum = 0;
    for (const auto& g : many_) sum += scaled(at(g, w, k));
    return units::Chance(sum / static_cast<double>(many_.size()));
  }

  units::Chance all_within(std::size_t w) const {
    const auto whole = [&](const Gone& g) {
      double chance = 1;
      for (std::size_t k = 1; k < p_.plates.size(); ++k) {
        chance *= misfit(at(g, w, k)).within.parts_of_one();
      }
      return chance;
    };
    if (many_.empty()) return units::Chance(whole(one_));
    double sum = 0;
    for (const auto& g : many_) sum += whole(g);
    return units::Chance(sum / static_cast<double>(many_.size()));
  }

  const Printing& p_;
  const std::vector<Way>& ways_;
  Grain grain_;
  const Gone& one_;
  const std::vector<Gone>& many_;
};

std::size_t best_of(const Comparison& c, std::optional<Way> asked) {
  // What asks least of the printer comes first among equals.
  const std::vector<Way> by_ease{Way::released, Way::held, Way::dried, Way::dry};
  double most = 0;
  for (const auto& w : c.ways) most = std::max(most, w.all.parts_of_one());
  const auto index = [&](Way way) {
    return static_cast<std::size_t>(
        std::find_if(c.ways.begin(), c.ways.end(), [&](const auto& w) { return w.way == way; }) -
        c.ways.begin());
  };
  const auto alike = [&](std::size_t i) {
    return i < c.ways.size() && c.ways[i].all.parts_of_one() >= most - as_often;
  };
  if (asked && alike(index(*asked))) return index(*asked);
  for (const Way way : by_ease) {
    if (alike(index(way))) return index(way);
  }
  return 0;
}

}  // namespace

Answer compare(const Printing& p, std::optional<Way> asked) {
  check(p);
  const auto all = ways_for(p);
  Gone one = gone(p, expected(p), all);
  std::vector<Gone> many;
  const auto likely_sheets = sampled(p);
  many.resize(likely_sheets.size());
  method::over_samples(many.size(),
                       [&](std::size_t k) { many[k] = gone(p, likely_sheets[k], all); });

  const auto with_grain = [&](Grain grain) {
    add_waits(p, all, grain, one);
    method::over_samples(many.size(), [&](std::size_t k) { add_waits(p, all, grain, many[k]); });
    const Comparing comparing(p, all, grain, one, many);
    Comparison c = comparing.compared();
    c.dry_sheet = in_si(p.sheet_long) * in_si(p.sheet_short) *
                  one.passage[0].ready[0].sheet.porous->dry * units::kilograms(1);
    const std::size_t best = best_of(c, asked);
    for (std::size_t w = 0; w < all.size(); ++w) {
      double less = 0;
      for (const auto& g : many) {
        if (comparing.worst_of_print(g, best) <= comparing.worst_of_print(g, w)) less += 1;
      }
      c.ways[w].firmer = units::Chance(many.empty() ? 1 : less / static_cast<double>(many.size()));
    }
    return c;
  };

  Answer a;
  a.samples = p.samples;
  if (p.grain != Grain::unknown) {
    a.shown = with_grain(p.grain);
  } else {
    a.shown = with_grain(Grain::along_long_side);
    a.other = with_grain(Grain::along_short_side);
    const auto best_chance = [](const Comparison& c) {
      double most = 0;
      for (const auto& w : c.ways) most = std::max(most, w.all.parts_of_one());
      return most;
    };
    if (best_chance(*a.other) < best_chance(a.shown)) std::swap(a.shown, *a.other);
  }
  a.best = a.shown.ways[best_of(a.shown, asked)].way;
  return a;
}

}  // namespace dampline::size
