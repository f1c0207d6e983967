#include <algorithm>
#include <cmath>

#include <dampline/method/over_samples.hpp>
#include <dampline/method/scores.hpp>
#include <dampline/size/follow.hpp>

namespace dampline::size {
namespace {

using method::Arrangement;
using method::Stage;

double mean_of(const method::State& state) { return method::sample_of(state).mean.parts_of_one(); }

// Drying under restraint puts some of the growth in.
void dry(const Printing& p, SheetSize& size, double from, double to) {
  const double held = restraint(p);
  if (held > 0) dry_held(size, units::Moisture(from), units::Moisture(to), held);
}

class Going {
 public:
  Going(const Printing& p, const Sampled& s, const Damp& first) : p_(p), s_(s), now_(first) {}

  Passage all(Way way) {
    passes_ = p_.blank_pass ? 1 : 0;
    pull();
    const Damp after_first = after(now_, std::vector<Stage>{method::nip_pass()});
    out_.ready.push_back(after_first);
    for (std::size_t k = 1; k < p_.plates.size(); ++k) {
      reach(way, p_.plates[k]);
      out_.ready.push_back(way == Way::dried ? uncovered_ : after_first);
      pull();
    }
    const double keeps = mean_of(method::conditioned(s_.sheet, s_.room));
    if (!now_dry_) dry(p_, now_.size, mean_of(now_.state), keeps);
    out_.finished = growth(now_.size, units::Moisture(keeps));
    out_.finished_nip = nip_stretch(passes_, s_.nip).parts_of_one();
    return std::move(out_);
  }

 private:
  void pull() {
    out_.pulls.push_back({growth_now(now_.size, now_.state), units::Moisture(mean_of(now_.state)),
                          now_.size, nip_stretch(passes_, s_.nip).parts_of_one()});
    ++passes_;
  }

  void reach(Way way, const PrintedPlate& next) {
    if (now_dry_) return;
    switch (way) {
      case Way::held:
        return through({method::nip_pass(), method::left(Arrangement::bench, p_.change)});
      case Way::released:
        return through({method::nip_pass(), method::left(Arrangement::covered, next.between),
                        method::left(Arrangement::bench, p_.laying)});
      case Way::dried:
        return damp_again();
      case Way::dry:
        break;
    }
    set_dry(s_.room);
    now_dry_ = true;
  }

  void through(const std::vector<Stage>& stages) { now_ = after(std::move(now_), stages); }

  void set_dry(const air::Climate& room) {
    const double from = mean_of(now_.state);
    now_.state = method::conditioned(now_.sheet, room);
    dry(p_, now_.size, from, mean_of(now_.state));
  }

  void damp_again() {
    set_dry(s_.room_again);
    now_.room = s_.room_again;
    now_.sheet.contact_scale = method::factor_at(2, s_.hands_again.contact);
    through(method::drawn(p_.damping, s_.hands_again));
    uncovered_ = now_;
    through({method::left(Arrangement::bench, p_.laying)});
  }

  const Printing& p_;
  const Sampled& s_;
  Damp now_;
  Damp uncovered_;
  Passage out_;
  int passes_ = 0;
  bool now_dry_ = false;
};

}  // namespace

Sampled expected(const Printing& p) {
  Sampled s;
  s.sheet = method::sheet_of(p.stock, p.sheet_short, p.sheet_long);
  s.room = p.room;
  s.room_again = p.room;
  s.size = expected_sheet(p.stock, p.beliefs);
  s.nip = p.nip;
  return s;
}

std::vector<Sampled> sampled(const Printing& p) {
  const auto draws = method::draws(p.samples, p.seed);
  const auto growths = growth_draws(p.samples, p.seed);
  std::vector<Sampled> all(draws.size());
  method::over_samples(draws.size(), [&](std::size_t k) {
    Sampled& s = all[k];
    s.sheet = method::drawn(p.stock, draws[k], p.sheet_short, p.sheet_long);
    s.room = method::drawn(p.room, draws[k]);
    s.room_again = method::drawn(p.room, growths[k].again);
    s.size = drawn_sheet(p.stock, p.beliefs, growths[k]);
    s.nip = drawn_nip(p.nip, growths[k]);
    s.hands = draws[k];
    s.hands_again = growths[k].again;
  });
  return all;
}

Damp at_first_pull(const Printing& p, const Sampled& s) {
  Damp damp{s.sheet, method::conditioned(s.sheet, s.room), s.size, s.room};
  auto stages = method::drawn(p.damping, s.hands);
  stages.push_back(method::left(Arrangement::bench, p.laying));
  return after(std::move(damp), stages);
}

Passage follow(const Printing& p, const Sampled& s, const Damp& first, Way way) {
  return Going(p, s, first).all(way);
}

RegisterCase case_at(const Printing& p, const Passage& passage, Way way, std::size_t plate,
                     Grain grain) {
  RegisterCase c = case_of(p, way, p.plates[plate], grain);
  c.first = passage.pulls.front().growth;
  c.later = passage.pulls[plate].growth;
  const units::Strain nip(passage.pulls[plate].nip - passage.pulls.front().nip);
  (p.travel == Travel::along_long_side ? c.nip_long : c.nip_short) = nip;
  return c;
}

Lag max_lag(const Printing& p, Way way, units::Duration horizon) {
  const Sampled s = expected(p);
  const Damp first = at_first_pull(p, s);
  std::vector<RegisterCase> cases;
  for (std::size_t k = 1; k < p.plates.size(); ++k) {
    RegisterCase c = drift_case(case_of(p, way, p.plates[k], p.grain));
    c.first = growth_now(first.size, first.state);
    cases.push_back(c);
  }
  return max_lag(after(first, std::vector{method::nip_pass()}), cases, horizon);
}

}  // namespace dampline::size
