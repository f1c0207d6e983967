#include <algorithm>
#include <cmath>

#include <dampline/method/book.hpp>
#include <dampline/planner/aims.hpp>
#include <dampline/planner/builder.hpp>
#include <dampline/planner/late_search.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/objective.hpp>
#include <dampline/scheduling/solve.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

constexpr long long share_for_margin = 10;  // of the search budget
constexpr int more_soaks = 2;               // tried beyond the fewest
constexpr HalfMinutes overtime{8 * 120};    // how far past its end a day is followed

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Search {
 public:
  explicit Search(const LateCase& late) : c_(late) {
    const auto& s = late.session;
    each_ = s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
    for (const auto& batch : late.morning.draft.batches) {
      const int a = batch.wet_from.activity;
      const bool wet = a == late.morning.draft.problem.source || begun(a);
      if (!wet) break;
      wet_.push_back(static_cast<int>(batch.sheets.size()));
      wet_sheets_ += wet_.back();
    }
    for (const auto& pull : late.morning.draft.pulls) {
      prints_ = std::max(prints_, pull.print);
      if (begun(pull.pulled.activity)) begun_ = std::max(begun_, pull.print);
      if (late.beyond_mending.contains(pull.sheet)) spoilt_.insert(pull.print);
    }
    replacements_ = replacements(late);
  }

  LateFit best() {
    auto found = most();
    if (!found.fit.starts.empty()) keep_apart(found.fit);
    return found;
  }

 private:
  LateFit most() {
    const int all = (prints_ + each_ - 1) / each_ + replacements_;
    const int least = (begun_ + each_ - 1) / each_;
    LateFit best = ask(all, lost_above(all));
    int fits = least - 1;
    int fails = all;
    if (!best.fit.starts.empty()) return best;
    while (fits + 1 < fails) {
      const int rounds = (fits + fails) / 2;
      auto found = ask(rounds, lost_above(rounds));
      if (found.fit.starts.empty()) {
        fails = rounds;
      } else {
        fits = rounds;
        best = std::move(found);
      }
    }
    if (best.fit.starts.empty()) return past_the_end(least);
    return with_single_prints(std::move(best), fits + 1);
  }

  [[nodiscard]] bool begun(int a) const {
    const auto& block = c_.morning.draft.blocks[at(a)];
    for (std::size_t i = 0; i < block.parts.size(); ++i) {
      if (c_.history.steps.contains(step_id(block, i))) return true;
    }
    return false;
  }

  [[nodiscard]] std::set<int> lost_above(int rounds) const {
    auto lost = spoilt_;
    for (int p = rounds * each_ + 1; p <= prints_ + each_ * (1 + replacements_); ++p)
      lost.insert(p);
    return lost;
  }

  // Of a round of several prints some may fit where not all do.
  LateFit with_single_prints(LateFit best, int round) {
    if (each_ == 1) return best;
    for (int p = (round - 1) * each_ + 1; p <= round * each_; ++p) {
      if (!best.lost.contains(p) || spoilt_.contains(p)) continue;
      auto lost = best.lost;
      lost.erase(p);
      auto found = ask(round, lost);
      if (!found.fit.starts.empty()) best = std::move(found);
    }
    return best;
  }

  // What is begun is finished even when that takes longer than the day has.
  LateFit past_the_end(int rounds) {
    longer_ = overtime;
    auto found = ask(rounds, lost_above(rounds));
    found.over = found.fit.finish > c_.until;
    return found;
  }

  LateFit ask(int rounds, const std::set<int>& lost) {
    const int sheets = std::max(wet_sheets_, rounds * each_);
    const int dry = sheets - wet_sheets_;
    const auto& tub = c_.session.equipment.tub;
    const auto& t = c_.damping.treatment;
    const int least = dry == 0 ? 0 : t.in_tub && tub ? (dry + tub->sheets - 1) / tub->sheets : 1;
    const int most = dry == 0 ? 0 : std::min(least + more_soaks, dry);
    LateFit best;
    HalfMinutes bound{};
    for (int batches = least; batches <= most; ++batches) {
      auto found = ask(rounds, lost, batches, {});
      if (found.fit.starts.empty()) found = ask(rounds, lost, batches, waiting_ink());
      if (found.fit.starts.empty()) continue;
      const bool first = best.fit.starts.empty();
      bound = first ? found.fit.bound : std::min(bound, found.fit.bound);
      if (first || found.fit.finish < best.fit.finish) best = std::move(found);
    }
    best.fit.bound = std::min(bound, best.fit.finish);
    return best;
  }

  // Inked plates that have not been printed yet.
  [[nodiscard]] std::set<std::string> waiting_ink() const {
    std::set<std::string> out;
    const auto& d = c_.morning.draft;
    for (std::size_t a = 0; a < d.blocks.size(); ++a) {
      const auto& block = d.blocks[a];
      if (block.id.starts_with("ink-") && c_.history.steps.contains(block.id)) out.insert(block.id);
    }
    return out;
  }

  LateFit ask(int rounds, const std::set<int>& lost, int batches,
              const std::set<std::string>& ink_again) {
    LateFit out;
    const int sheets = std::max(wet_sheets_, rounds * each_);
    const int dry = sheets - wet_sheets_;
    Extent extent;
    const int drawn = (sheets + each_ - 1) / each_;
    extent.proofs = std::min(drawn, c_.session.edition.proofs);
    extent.prints = drawn - extent.proofs;
    extent.presses = c_.worked.outcome.fit.extent.presses;
    extent.sheets_in = wet_;
    for (int b = 0; b < batches; ++b) {
      extent.sheets_in.push_back(dry * (b + 1) / batches - dry * b / batches);
    }
    const auto whole = draft(c_.session, c_.knowledge.craft, c_.damping.treatment, extent);
    Remains remains;
    remains.lost = lost;
    remains.ink_again = ink_again;
    remains.until = c_.until + longer_;
    remains.give_up = rounds == 0;
    out.rest = remaining({c_.session, whole, c_.morning.starts, c_.morning.steps},
                         c_.knowledge.craft, c_.history, remains);
    if (!ink_again.empty() && out.rest.ink_again.empty()) return out;  // as before
    tend(out.rest.draft);
    out.given_up = remains.give_up;
    out.lost = lost;
    out.fit.extent = extent;
    out.fit.draft = out.rest.draft;
    schedule(out.fit);
    return out;
  }

  void schedule(Fit& fit) const {
    scheduling::Options o;
    o.conflicts = c_.options.conflicts;
    o.seed = c_.options.seed;
    o.deadline = fit.draft.problem.horizon;
    auto found = scheduling::solve(fit.draft.problem, o);
    fit.starts = std::move(found.starts);
    fit.finish = HalfMinutes(found.makespan);
    fit.bound = HalfMinutes(found.bound);
  }

  // Of the plans that end as early, the one whose pulls keep furthest from the ends of their
  // windows; what may wait then waits less.
  void keep_apart(Fit& fit) const {
    const auto& t = c_.damping.treatment;
    const auto margin = most_margin(fit.draft, t);
    if (!margin.windows.empty()) {
      scheduling::Options o;
      o.seed = c_.options.seed;
      o.conflicts = c_.options.conflicts / share_for_margin;
      o.hint = fit.starts;
      auto problem = fit.draft.problem;
      scheduling::at_most(problem, problem.source, problem.sink, fit.finish.count());
      auto solved = scheduling::solve_in_order(problem, {margin}, o);
      if (!solved.reached.empty()) {
        fit.starts = std::move(solved.result.starts);
        fit.margin = HalfMinutes(static_cast<int>(solved.reached.front().value));
        fit.margin_proved = solved.reached.front().is_proved;
      }
    }
    fit.starts = wait_less(kept(fit.draft, t, fit.finish, fit.margin), fit.draft, fit.starts);
    fit.idle_wet = idle_wet(fit.draft, t, fit.starts);
    const auto wrong = scheduling::check(fit.draft.problem, fit.starts);
    if (!wrong.empty()) throw std::logic_error("schedule refused by the checker: " + wrong.front());
  }

  void tend(Draft& d) const {
    int mended = -1;
    for (auto& sheet : d.sheets) {
      if (const auto t = c_.tended.find(sheet.number); t != c_.tended.end()) {
        sheet.tended = t->second;
      }
      if (const auto mend = c_.mends.find(sheet.number); mend != c_.mends.end()) {
        mended = mend_sheet(d, sheet, mend->second, mended);
      }
    }
  }

  [[nodiscard]] Part hands(const Draft& d, const std::string& kind, int person) const {
    const auto& craft = c_.knowledge.craft;
    Part p;
    p.kind = kind;
    p.what = step_kind(craft, kind).what;
    p.cue = step_kind(craft, kind).cue;
    const auto time = step_time(craft, kind, c_.session.paper.sheet);
    p.length =
        half_minutes(units::seconds(units::in_si(time) * c_.session.people[at(person)].pace));
    p.uses = {{person, 1}};  // people are the first resources
    if (kind == "wash-hands") return p;
    for (std::size_t r = 0; r < d.resources.size(); ++r) {
      if (d.resources[r].kind == ResourceKind::blotting_place) {
        p.uses.push_back({static_cast<int>(r), 1});
      }
    }
    return p;
  }

  // Sheets are mended one after the other, with one wash of the hands. `previous` is the one
  // before, or -1; the activity, or `previous` when the sheet is not printed.
  int mend_sheet(Draft& d, DraftSheet& sheet, const Mend& mend, int previous) const {
    const bool wanted = std::any_of(d.pulls.begin(), d.pulls.end(), [&](const DraftPull& p) {
      return p.sheet == sheet.number && p.pulled.activity != d.problem.source;
    });
    if (!wanted) return previous;
    const int person = teams(c_.session).front().handler;
    Block block{mend.rescue.step, {}};
    if (previous < 0 && c_.session.people[at(person)].inks)
      block.parts.push_back(hands(d, "wash-hands", person));
    Part part = hands(d, mend.rescue.kind == "mist" ? "damp" : "blot", person);
    part.what =
        mend.rescue.kind == "mist"
            ? "mist with " +
                  units::text(units::grams(std::round(units::in_grams(*mend.rescue.water)))) +
                  " of water"
            : "blot once more";
    part.sheets = {sheet.number};
    block.parts.push_back(part);
    HalfMinutes length{};
    std::vector<scheduling::Use> uses;
    for (const auto& p : block.parts) length += p.length;
    for (const auto& use : part.uses) uses.push_back({use.resource, use.amount});
    const HalfMinutes from = length - part.length;
    const int a = scheduling::add_activity(d.problem, block.id, length.count(), uses);
    d.blocks.push_back(std::move(block));
    scheduling::at_least(d.problem, d.problem.source, a, c_.history.at.count());
    scheduling::at_least(d.problem, a, d.problem.sink, length.count());
    if (previous >= 0) {
      const int after = d.problem.activities[at(previous)].duration;
      scheduling::at_least(d.problem, previous, a, after);
      scheduling::at_most(d.problem, previous, a, after);
    }
    const HalfMinutes done = from + half_minutes(method::length_of(mend.stages));
    for (const auto& pull : d.pulls) {
      if (pull.sheet != sheet.number || pull.pulled.activity == d.problem.source) continue;
      const auto lag = [&](HalfMinutes t) { return (done + t - pull.pulled.offset).count(); };
      scheduling::at_least(d.problem, a, pull.pulled.activity,
                           std::max(lag(mend.opens), length.count()));
      scheduling::at_most(d.problem, a, pull.pulled.activity, lag(mend.closes));
    }
    sheet.tended.push_back(
        {{a, from}, mend.stages, method::left(method::Arrangement::covered, units::hours(72))});
    return a;
  }

  const LateCase& c_;
  int each_ = 1;
  std::vector<int> wet_;  // sheets of the batches begun
  int wet_sheets_ = 0;
  int prints_ = 0;
  int replacements_ = 0;  // of prints that are spoiled
  int begun_ = 0;         // the last print that has been on the press
  std::set<int> spoilt_;
  HalfMinutes longer_{};
};

}  // namespace

int replacements(const LateCase& late) {
  const auto& s = late.session;
  if (s.edition.sheet_each) return 0;
  const int proofs = late.worked.outcome.fit.extent.proofs;
  int wanted = 0;
  for (const auto& [print, where] : late.history.spoiled) wanted += print > proofs ? 1 : 0;
  if (s.paper.sheets == 0) return wanted;  // not stated
  const int spare = s.paper.sheets - static_cast<int>(late.morning.draft.sheets.size());
  return std::clamp(spare, 0, wanted);
}

LateFit fit_the_rest(const LateCase& late) { return Search(late).best(); }

}  // namespace dampline::planner
