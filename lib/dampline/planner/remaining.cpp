#include <algorithm>

#include <dampline/planner/builder.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/remaining.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::planner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

constexpr HalfMinutes rest_slack{120};  // a rest that is overdue comes within the hour: assumed

enum class Bias { start, end };  // of two steps that meet, which one a moment belongs to

// What has become of an activity of the morning.
struct Fate {
  bool lost = false;
  bool begun = false;
  int now = -1;  // not begun: the activity; begun: what is left of it, -1 when nothing is
  HalfMinutes left_from{};  // begun: where in it that begins
  struct Over {
    HalfMinutes from{}, to{};  // in the activity as planned
    HalfMinutes start{}, end{};
    int activity = -1;
  };
  std::vector<Over> over;
};

class Rest {
 public:
  Rest(const Morning& morning, const Craft& craft, const History& history, const Remains& remains)
      : m_(morning), old_(morning.draft), craft_(craft), h_(history), r_(remains) {}

  Remaining build() {
    auto& p = d().problem;
    p.resources = old_.problem.resources;
    p.horizon = r_.until.count();
    p.source = scheduling::add_activity(p, "source", 0, {});
    p.sink = scheduling::add_activity(p, "sink", 0, {});
    d().resources = old_.resources;
    d().blocks = {old_.blocks[at(old_.problem.source)], old_.blocks[at(old_.problem.sink)]};
    fates_.resize(old_.blocks.size());
    fates_[at(old_.problem.source)].now = p.source;
    fates_[at(old_.problem.sink)].now = p.sink;
    for (int a = 0; a < static_cast<int>(old_.blocks.size()); ++a) {
      if (a != old_.problem.source && a != old_.problem.sink) carry_over(a);
    }
    go_on();
    for (const auto& lag : old_.problem.lags) carry_over(lag);
    moments();
    return std::move(out_);
  }

 private:
  Draft& d() { return out_.draft; }
  [[nodiscard]] HalfMinutes length(int a) const {
    return HalfMinutes(old_.problem.activities[at(a)].duration);
  }
  [[nodiscard]] std::string time(HalfMinutes t) const { return clock_time(m_.session.day, t); }
  void note(const std::string& text) { out_.notes.push_back(text); }

  void not_before(int a, HalfMinutes t) {
    scheduling::at_least(d().problem, d().problem.source, a, t.count());
  }
  void not_after(int a, HalfMinutes t) {
    scheduling::at_most(d().problem, d().problem.source, a, t.count());
  }
  void pin(int a, HalfMinutes t) {
    not_before(a, t);
    not_after(a, t);
  }

  int activity(Block block, HalfMinutes length, std::vector<scheduling::Use> uses) {
    const int index =
        scheduling::add_activity(d().problem, block.id, length.count(), std::move(uses));
    d().blocks.push_back(std::move(block));
    return index;
  }

  // What an activity holds, as far as some of its parts need it.
  [[nodiscard]] std::vector<scheduling::Use> uses_of(int a, const std::vector<Part>& parts,
                                                     bool hands_only) const {
    std::vector<scheduling::Use> out;
    for (const auto& use : old_.problem.activities[at(a)].uses) {
      const auto kind = old_.resources[at(use.resource)].kind;
      if (hands_only && kind != ResourceKind::person && kind != ResourceKind::press) continue;
      const bool needed = std::any_of(parts.begin(), parts.end(), [&](const Part& part) {
        return std::any_of(part.uses.begin(), part.uses.end(),
                           [&](const Use& u) { return u.resource == use.resource; });
      });
      if (needed) out.push_back(use);
    }
    return out;
  }

  [[nodiscard]] bool inked() const {
    return std::any_of(h_.steps.begin(), h_.steps.end(), [](const auto& s) {
      return s.first.starts_with("mix-ink") || s.first.starts_with("ink-");
    });
  }

  [[nodiscard]] bool lost(const Block& block) const {
    if (r_.give_up) {
      const bool cleans = block.id.starts_with("clean-") || block.id.starts_with("close-press");
      return !(cleans && inked());
    }
    return !block.parts.empty() &&
           std::all_of(block.parts.begin(), block.parts.end(),
                       [&](const Part& p) {
                         return p.kind == "wash-hands" || r_.lost.contains(p.print);
                       }) &&
           r_.lost.contains(block.parts.back().print);
  }

  static bool is_rest(const Block& block) {
    return !block.parts.empty() && block.parts.front().kind == "short-rest";
  }

  static bool is_break(const Block& block) {
    return !block.parts.empty() && block.parts.front().kind == "break";
  }

  void carry_over(int a) {
    const auto& block = old_.blocks[at(a)];
    auto& fate = fates_[at(a)];
    HalfMinutes offset{};
    std::size_t left = 0;  // the first part that is not begun
    for (std::size_t i = 0; i < block.parts.size(); ++i) {
      const auto& part = block.parts[i];
      const auto found = h_.steps.find(step_id(block, i));
      if (found != h_.steps.end()) {
        fate.begun = true;
        left = i + 1;
        fate.left_from = offset + part.length;
        keep(a, i, offset, found->second, fate);
      }
      offset += part.length;
    }
    if (!fate.begun) {
      fate.lost = lost(block) || h_.missed.contains(block.id);
      if (fate.lost) return;
      fate.now = activity(block, length(a), old_.problem.activities[at(a)].uses);
      not_before(fate.now, h_.at);
      if (is_break(block)) breaks_.push_back(a);
      return;
    }
    if (left == block.parts.size()) return;
    Block rest{block.id,
               {block.parts.begin() + static_cast<std::ptrdiff_t>(left), block.parts.end()}};
    const auto uses = uses_of(a, rest.parts, false);
    fate.now = activity(std::move(rest), offset - fate.left_from, uses);
    half_way_.push_back(a);
  }

  void keep(int a, std::size_t i, HalfMinutes offset, const Begun& begun, Fate& fate) {
    const auto& block = old_.blocks[at(a)];
    Part part = block.parts[i];
    Fate::Over over{offset, offset + part.length, begun.start, begun.end, -1};
    part.length = begun.end - begun.start;
    const auto uses = begun.running ? uses_of(a, {part}, true) : std::vector<scheduling::Use>{};
    over.activity = activity({step_id(block, i), {part}}, part.length, uses);
    pin(over.activity, begun.start);
    if (begun.running) occupy(part.uses, begun.end);
    fate.over.push_back(over);
  }

  void occupy(const std::vector<Use>& uses, HalfMinutes until) {
    for (const auto& use : uses) {
      auto& busy = busy_[use.resource];
      busy = std::max(busy, until);
    }
  }
  [[nodiscard]] bool alone(int resource) const {
    const auto kind = old_.resources[at(resource)].kind;
    return kind == ResourceKind::person || kind == ResourceKind::press;
  }

  // What is half done with a sheet goes on at once; breaks come when the hands are free.
  void go_on() {
    std::stable_sort(half_way_.begin(), half_way_.end(), [&](int a, int b) {
      return fates_[at(a)].over.back().end < fates_[at(b)].over.back().end;
    });
    for (const int a : half_way_) {
      const auto& fate = fates_[at(a)];
      HalfMinutes from = std::max(h_.at, fate.over.back().end);
      const auto& rest = d().blocks[at(fate.now)].parts;
      if (std::all_of(rest.begin(), rest.end(), [](const Part& p) { return p.sheets.empty(); })) {
        not_before(fate.now, from);  // no sheet is out: it may wait
        continue;
      }
      const auto& uses = d().problem.activities[at(fate.now)].uses;
      for (const auto& use : uses) {
        if (alone(use.resource)) from = std::max(from, busy_[use.resource]);
      }
      pin(fate.now, from);
      const HalfMinutes until = from + HalfMinutes(d().problem.activities[at(fate.now)].duration);
      for (const auto& use : uses) busy_[use.resource] = std::max(busy_[use.resource], until);
    }
    for (const int a : breaks_) {
      const int b = fates_[at(a)].now;
      HalfMinutes planned = planned_at(a);
      HalfMinutes from = std::max(planned, h_.at);
      const auto& uses = d().problem.activities[at(b)].uses;
      for (const auto& use : uses) from = std::max(from, busy_[use.resource]);
      pin(b, from);
      for (const auto& use : uses) busy_[use.resource] = from + length(a);
      if (from > planned) {
        note("The break planned for " + time(planned) + " begins at " + time(from) + ".");
      }
    }
  }

  [[nodiscard]] HalfMinutes planned_at(int a) const {
    HalfMinutes at_least{};
    for (const auto& lag : old_.problem.lags) {
      if (lag.from == old_.problem.source && lag.to == a) {
        at_least = std::max(at_least, HalfMinutes(lag.least));
      }
    }
    return at_least;
  }

  // A moment of the morning's draft, as it has turned out or is to be.
  [[nodiscard]] Moment moved(const Moment& m, Bias bias) const {
    const auto& fate = fates_[at(m.activity)];
    if (!fate.begun) return {fate.now, m.offset};
    const bool left = fate.now >= 0 && (m.offset > fate.left_from ||
                                        (m.offset == fate.left_from && bias == Bias::start));
    if (left) return {fate.now, m.offset - fate.left_from};
    const Fate::Over* in = &fate.over.front();
    for (const auto& over : fate.over) {
      const bool reached = bias == Bias::start ? over.from <= m.offset : over.from < m.offset;
      if (reached) in = &over;
    }
    if (m.offset > in->to) return {0, in->end + (m.offset - in->to)};
    if (in->to == in->from) return {0, bias == Bias::start ? in->start : in->end};
    const double share = static_cast<double>((m.offset - in->from).count()) /
                         static_cast<double>((in->to - in->from).count());
    const auto since = static_cast<double>((in->end - in->start).count()) * std::max(0.0, share);
    return {0, in->start + HalfMinutes(static_cast<int>(since + 0.5))};
  }

  // The moment up to which a lag lets an activity go on, and what it asks for beyond its end.
  std::pair<Moment, HalfMinutes> anchored(int a, HalfMinutes lag) const {
    const HalfMinutes within = std::min(lag, length(a));
    return {moved({a, within}, Bias::end), lag - within};
  }

  void carry_over(const scheduling::Lag& lag) {
    const auto& from = fates_[at(lag.from)];
    const auto& to = fates_[at(lag.to)];
    const bool rests = is_rest(old_.blocks[at(lag.from)]);
    if (rests && !from.lost && !from.begun && to.lost && lag.least < 0) {
      return not_after(from.now, h_.at - HalfMinutes(lag.least));  // the one before it was missed
    }
    if (from.lost || to.lost) return;
    const bool breaks = is_break(old_.blocks[at(lag.from)]) || is_break(old_.blocks[at(lag.to)]);
    if (breaks) return;  // pinned already
    if (rests && lag.to == old_.problem.source && lag.least < 0 && !from.begun) {
      not_after(from.now, std::max(HalfMinutes(-lag.least), h_.at + rest_slack));
    } else if (!from.begun && !to.begun) {
      auto same = lag;
      same.from = from.now;
      same.to = to.now;
      d().problem.lags.push_back(same);
    } else if (lag.least >= 0) {
      if (to.begun) return;  // kept already, or it would not be begun
      const auto [m, beyond] = anchored(lag.from, HalfMinutes(lag.least));
      scheduling::at_least(d().problem, m.activity, to.now, (m.offset + beyond).count());
    } else if (!from.begun) {
      at_most(lag.to, lag.from, HalfMinutes(-lag.least));
    }
  }

  // `later`, not begun, starts at most `lag` after the start of `first`, which is begun.
  void at_most(int first, int later, HalfMinutes lag) {
    const auto [m, beyond] = anchored(first, lag);
    const int then = fates_[at(later)].now;
    HalfMinutes latest = m.offset + beyond;
    const auto& block = old_.blocks[at(first)];
    if (m.activity == 0 && block.id.starts_with("ink-")) {
      latest += spare_of(block);
      if (latest < h_.at || r_.ink_again.contains(block.id)) return again(first, then, lag);
      if (latest - spare_of(block) < h_.at) {
        note("The ink of " + block.id + " has stood longer than it comfortably does: wipe it up " +
             "before it is printed, by " + time(latest) + ".");
      }
    } else if (is_rest(old_.blocks[at(later)])) {
      latest = std::max(latest, h_.at + rest_slack);
    } else if (m.activity == 0 && latest < h_.at) {
      // Too late already: it comes as soon as it can.
      const auto& by = old_.blocks[at(later)].id;
      note("\"" + by + "\" was to begin by " + time(latest) +
           (block.id.starts_with("load-")
                ? ": the paper has lain in the water longer than its size bears."
                : ", for the image to fall where it should."));
      return;
    }
    scheduling::at_most(d().problem, m.activity, then, latest.count());
  }

  // How much longer than comfortable ink may stand before the plate is done again.
  [[nodiscard]] HalfMinutes spare_of(const Block& block) const {
    for (const auto& plate : m_.session.plates) {
      if (plate.name != block.parts.back().plate) continue;
      const auto& open = open_time_of(craft_, plate.ink);
      return half_minutes(open.redo) - half_minutes(open.comfortable);
    }
    return {};
  }

  void again(int first, int print, HalfMinutes lag) {
    Block block = old_.blocks[at(first)];
    out_.ink_again.insert(block.id);
    block.id += "-again";
    for (auto& part : block.parts) part.what += ", again";
    const int a =
        activity(std::move(block), length(first), old_.problem.activities[at(first)].uses);
    again_[first] = a;
    not_before(a, h_.at);
    scheduling::at_least(d().problem, a, print, length(first).count());
    scheduling::at_most(d().problem, a, print, lag.count());
    d().movable_later.push_back(a);
  }

  void moments() {
    for (auto pull : old_.pulls) {
      if (fates_[at(pull.pulled.activity)].lost) continue;
      const auto again = again_.find(pull.inked.activity);
      pull.inked = again == again_.end() ? moved(pull.inked, Bias::end)
                                         : Moment{again->second, length(pull.inked.activity)};
      pull.laid = moved(pull.laid, Bias::start);
      pull.pulled = moved(pull.pulled, Bias::start);
      pull.lifted = moved(pull.lifted, Bias::end);
      d().pulls.push_back(pull);
    }
    for (auto sheet : old_.sheets) {
      sheet.wet = moved(sheet.wet, Bias::start);
      sheet.lifted = moved(sheet.lifted, Bias::start);
      sheet.covered = moved(sheet.covered, Bias::end);
      d().sheets.push_back(std::move(sheet));
    }
    for (auto batch : old_.batches) {
      batch.wet_from = moved(batch.wet_from, Bias::start);
      batch.covered_from = moved(batch.covered_from, Bias::end);
      d().batches.push_back(std::move(batch));
    }
    for (const auto& [loaded, lifted] : old_.soaks) {
      d().soaks.emplace_back(piece(loaded, "load"), piece(lifted, "blot"));
    }
    for (const int a : old_.movable_later) {
      const auto& fate = fates_[at(a)];
      if (!fate.begun && !fate.lost) d().movable_later.push_back(fate.now);
    }
  }

  // The activity now that holds this kind of step of an activity of the morning.
  [[nodiscard]] int piece(int a, const std::string& kind) const {
    for (const auto& over : fates_[at(a)].over) {
      if (out_.draft.blocks[at(over.activity)].parts.front().kind == kind) return over.activity;
    }
    return fates_[at(a)].now;
  }

  const Morning& m_;
  const Draft& old_;
  const Craft& craft_;
  const History& h_;
  const Remains& r_;
  Remaining out_;
  std::vector<Fate> fates_;
  std::vector<int> half_way_;
  std::vector<int> breaks_;
  std::map<int, int> again_;         // inking done once more, by the activity it was in the morning
  std::map<int, HalfMinutes> busy_;  // until when, by resource
};

}  // namespace

Remaining remaining(const Morning& morning, const Craft& craft, const History& history,
                    const Remains& remains) {
  return Rest(morning, craft, history, remains).build();
}

}  // namespace dampline::planner
