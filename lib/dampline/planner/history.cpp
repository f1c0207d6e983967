#include <algorithm>
#include <set>

#include <dampline/planner/find_step.hpp>
#include <dampline/planner/history.hpp>
#include <dampline/planner/history_check.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::planner {
namespace {

class Reader {
 public:
  Reader(const Morning& morning, const LateNews& news) : m_(morning), news_(news) {
    out_.at = news.at;
    for (const auto& step : m_.steps) by_id_[step.id] = &step;
    for (const auto& block : m_.draft.blocks) {
      std::vector<const Step*> parts;
      for (std::size_t i = 0; i < block.parts.size(); ++i) {
        // Washes that were not needed stand in no plan.
        const auto found = by_id_.find(step_id(block, i));
        if (found != by_id_.end()) parts.push_back(found->second);
      }
      for (const auto* part : parts) block_of_[part->id] = parts;
    }
  }

  std::variant<History, LateFaults> read() {
    if (news_.behind) shift_ = *news_.behind;
    out_.notes = news_.notes;
    take_as_planned();
    name_all();
    for (std::size_t i = 0; i < news_.steps.size(); ++i) {
      if (named_[i] != nullptr) take(news_.steps[i], *named_[i]);
    }
    if (faults_.empty()) fill_between();
    begin_with_the_day();
    for (const auto& [print, where] : news_.spoiled) spoil(print, where);
    if (faults_.empty()) pauses();
    if (faults_.empty()) faults_ = faults_of(m_, out_);
    if (!faults_.empty()) return std::move(faults_);
    note();
    return std::move(out_);
  }

 private:
  void fault(std::string what, std::string help) {
    faults_.push_back({std::move(what), std::move(help)});
  }
  [[nodiscard]] std::string time(HalfMinutes at) const { return clock_time(m_.session.day, at); }

  const Step* step_named(const std::string& name) {
    const auto sought = seek_step(m_.steps, m_.session.day, name);
    if (sought.ids.size() == 1) return by_id_.at(sought.ids.front());
    if (sought.ids.empty()) {
      fault("the plan has no step \"" + name + "\"",
            sought.near ? "did you mean " + *sought.near + "?"
                        : "`dampline plan FILE --json -` names every step by its id");
    } else {
      fault("\"" + name + "\" may be one of several steps",
            "name one of " + units::listed(sought.ids, "", "and"));
    }
    return nullptr;
  }

  // All that was to be over by a time of the plan; what it cuts through is running.
  void take_as_planned() {
    std::optional<HalfMinutes> until;
    if (news_.done_until) {
      const auto* last = step_named(*news_.done_until);
      if (last == nullptr) return;
      until = last->end;
    } else if (news_.behind) {
      until = out_.at - shift_;
    }
    if (!until) return;
    reached_ = until;
    for (const auto& step : m_.steps) {
      if (!block_of_.contains(step.id) || step.start >= *until) continue;
      Begun b{step.start + shift_, step.end + shift_, step.end > *until, false};
      if (b.running) b.end = std::max(b.end, out_.at);
      out_.steps[step.id] = b;
    }
  }

  void name_all() {
    std::set<std::string> seen;
    for (const auto& said : news_.steps) {
      const auto* step = said.written.empty() ? step_named(said.name) : step_written(said, seen);
      if (step != nullptr && !seen.insert(step->id).second) {
        fault("\"" + step->id + "\" is named twice", "name each step once");
        step = nullptr;
      }
      named_.push_back(step);
    }
    ids_named_ = std::move(seen);
  }

  // What was written down names a step by its id or only by its kind: then the first of the kind
  // that is not named yet, of that plate and print where those are said.
  const Step* step_written(const SaidStep& said, const std::set<std::string>& seen) {
    const auto sought = seek_step(m_.steps, m_.session.day, said.name);
    const Step* first = nullptr;
    for (const auto& id : sought.ids) {
      const auto* step = by_id_.at(id);
      if (seen.contains(id) || (said.plate && step->plate != *said.plate)) continue;
      if (said.print && step->print != *said.print) continue;
      if (first == nullptr || step->start < first->start) first = step;
    }
    if (first == nullptr) {
      out_.notes.push_back(said.written + ": \"" + said.name +
                           "\" fits no step of the plan that is left, and is not used.");
    } else if (first->kind == "soak") {
      return load_of(*first, said, seen);
    }
    return first;
  }

  // The soak begins when its sheets are all in the water; how long they lie there is between that
  // and their blotting.
  const Step* load_of(const Step& soak, const SaidStep& said, const std::set<std::string>& seen) {
    const auto load = by_id_.find("load" + soak.id.substr(std::string("soak").size()));
    if (load == by_id_.end() || !said.start || seen.contains(load->first)) return nullptr;
    return load->second;
  }

  // The plan's clock begins when the studio opens; whoever came early wrote down earlier times.
  void begin_with_the_day() {
    const bool by_hand = std::all_of(news_.steps.begin(), news_.steps.end(),
                                     [](const SaidStep& said) { return said.written.empty(); });
    if (by_hand) return;
    int early = 0;
    for (auto& [id, begun] : out_.steps) {
      if (begun.start >= HalfMinutes(0)) continue;
      begun.start = HalfMinutes(0);
      begun.end = std::max(begun.end, HalfMinutes(0));
      ++early;
    }
    if (early == 0) return;
    out_.notes.push_back(
        std::to_string(early) + (early == 1 ? " step was begun" : " steps were begun") +
        " before the studio opens at " + time(HalfMinutes(0)) + ": taken as begun then.");
  }

  // Steps nobody wrote down, but that were to be over by the end of one that is: done in between.
  // Their times follow those written down, from one to the next, so that the order stays.
  void fill_between() {
    std::vector<std::pair<HalfMinutes, HalfMinutes>> knots{{HalfMinutes(0), HalfMinutes(0)}};
    HalfMinutes reached{};
    for (std::size_t i = 0; i < news_.steps.size(); ++i) {
      if (named_[i] == nullptr || news_.steps[i].written.empty()) continue;
      const auto& parts = block_of_.at(named_[i]->id);
      for (const auto* part : parts) {
        const auto b = out_.steps.find(part->id);
        if (b == out_.steps.end()) continue;
        knots.emplace_back(part->start, b->second.start);
        if (!b->second.running) knots.emplace_back(part->end, b->second.end);
        reached = std::max(reached, b->second.running ? part->start : part->end);
      }
    }
    if (knots.size() == 1) return;
    std::sort(knots.begin(), knots.end());
    std::vector<std::pair<HalfMinutes, HalfMinutes>> rising;
    for (const auto& knot : knots) {
      if (rising.empty() || knot.second >= rising.back().second) rising.push_back(knot);
    }
    reached_ = reached;
    for (const auto& step : m_.steps) {
      const bool pause = step.kind == "break" || step.kind == "short-rest";
      if (pause || step.end > reached || !block_of_.contains(step.id)) continue;
      if (out_.steps.contains(step.id)) continue;
      out_.steps[step.id] = {between(rising, step.start), between(rising, step.end), false, false};
      ++filled_;
    }
  }

  static HalfMinutes between(const std::vector<std::pair<HalfMinutes, HalfMinutes>>& knots,
                             HalfMinutes at) {
    auto next = knots.begin();
    while (next != knots.end() && next->first < at) ++next;
    if (next == knots.end()) return knots.back().second;
    if (next->first == at || next == knots.begin()) return next->second;
    const auto before = next - 1;
    const auto span = next->first - before->first;
    return before->second +
           (next->second - before->second) * (at - before->first).count() / span.count();
  }

  void spoil(int print, const std::string& where) {
    const auto pulled = std::any_of(m_.steps.begin(), m_.steps.end(), [&](const Step& step) {
      return step.kind == "pull" && step.print == print && out_.steps.contains(step.id);
    });
    if (pulled) {
      out_.spoiled[print] = where;
    } else {
      out_.notes.push_back(where + ": print " + std::to_string(print) +
                           " is said to be spoiled, but no pull of it is done by the plan.");
    }
  }

  // Naming a block by its id means all of it, unless others of its steps are named too.
  [[nodiscard]] bool means_block(const std::vector<const Step*>& parts, const Step& step) const {
    return parts.size() > 1 && &step == parts.back() &&
           std::none_of(parts.begin(), parts.end() - 1,
                        [&](const Step* p) { return ids_named_.contains(p->id); });
  }

  void take(const SaidStep& said, const Step& step) {
    const auto found = block_of_.find(step.id);
    if (found == block_of_.end()) return;  // a soak: it is between its load and its blot
    const auto& parts = found->second;
    std::size_t first = 0;
    while (parts[first] != &step) ++first;
    const std::size_t end = first + 1;
    if (means_block(parts, step)) first = 0;
    const HalfMinutes length = parts[end - 1]->end - parts[first]->start;
    const bool into_the_water = !said.written.empty() && sought_soak(said, step);
    auto told = said;
    if (into_the_water) {
      told.end = said.start;
      told.start.reset();
      told.running = false;
    }
    if (!told.start && told.end) {
      told.start = std::max(*told.end - length, std::min(*told.end, HalfMinutes(0)));
    }
    const HalfMinutes start = told.start.value_or(parts[first]->start + shift_);
    take(told, step, parts, first, end, start);
  }

  // Written down was a soak, and the step is the loading of the tub.
  [[nodiscard]] bool sought_soak(const SaidStep& said, const Step& step) const {
    return step.kind == "load" && said.name.find("load") == std::string::npos;
  }

  void take(const SaidStep& said, const Step& step, const std::vector<const Step*>& parts,
            std::size_t first, std::size_t end, HalfMinutes start) {
    if (said.running ? start > out_.at : said.start && start > out_.at) {
      return fault("\"" + step.id + "\" is " + (said.running ? "running" : "done") +
                       ", but it begins at " + time(start) + ", after " + time(out_.at),
                   "say when it began: " + step.id + "@" + time(out_.at - HalfMinutes(20)));
    }
    if (said.running) {
      run(parts, first, end, start, said.start.has_value());
    } else {
      finish(said, parts, first, end, start);
    }
    // What comes before it in its block is over too.
    HalfMinutes clock = start;
    for (std::size_t i = first; i-- > 0;) {
      if (ids_named_.contains(parts[i]->id)) break;
      const HalfMinutes length = parts[i]->end - parts[i]->start;
      if (!said.start && out_.steps.contains(parts[i]->id)) break;
      out_.steps[parts[i]->id] = {clock - length, clock, false, false};
      clock -= length;
    }
  }

  // In their usual lengths from `start` on: those that end by now are done.
  void run(const std::vector<const Step*>& parts, std::size_t first, std::size_t end,
           HalfMinutes start, bool said) {
    HalfMinutes clock = start;
    for (std::size_t i = first; i < end; ++i) {
      const HalfMinutes until = clock + (parts[i]->end - parts[i]->start);
      const bool now = until > out_.at || i + 1 == end;
      out_.steps[parts[i]->id] = {clock, now ? std::max(until, out_.at) : until, now, said};
      if (now) {
        for (std::size_t k = i + 1; k < end; ++k) out_.steps.erase(parts[k]->id);
        return;
      }
      clock = until;
    }
  }

  void finish(const SaidStep& said, const std::vector<const Step*>& parts, std::size_t first,
              std::size_t end, HalfMinutes start) {
    const HalfMinutes planned = parts[end - 1]->end - parts[first]->start;
    HalfMinutes until = said.end.value_or(start + planned);
    if (said.start && !said.end) {
      until = std::min({until, out_.at, std::max(start, said.before.value_or(out_.at))});
    }
    const auto& id = parts[end - 1]->id;
    if (until < start) {
      return fault("\"" + id + "\" ends at " + time(until) + ", before it begins at " + time(start),
                   "give its start first: " + id + "@" + time(until) + "-" + time(start));
    }
    if (until > out_.at) {
      return fault(
          "\"" + id + "\" is said to be done, but " + (said.end ? "ends" : "is planned to end") +
              " at " + time(until) + ", after " + time(out_.at),
          said.end
              ? "nothing is done after --at; name it under --running"
              : "say when it was: " + id + "@" + time(out_.at - planned) + "-" + time(out_.at));
    }
    const double scale = planned.count() > 0 ? static_cast<double>((until - start).count()) /
                                                   static_cast<double>(planned.count())
                                             : 0;
    const auto at = [&](HalfMinutes t) {
      const auto since = static_cast<double>((t - parts[first]->start).count());
      return start + HalfMinutes(static_cast<int>(since * scale + 0.5));
    };
    for (std::size_t i = first; i < end; ++i) {
      out_.steps[parts[i]->id] = {at(parts[i]->start), at(parts[i]->end), false,
                                  said.start.has_value()};
    }
  }

  // A break (or a short rest) whose time has come is being taken, or was, unless somebody worked
  // through it: a break is then taken later, a rest was missed.
  void pauses() {
    for (std::size_t a = 0; a < m_.draft.blocks.size(); ++a) {
      const auto& block = m_.draft.blocks[a];
      if (block.parts.size() != 1 || out_.steps.contains(block.id)) continue;
      const auto& part = block.parts.front();
      const bool rest = part.kind == "short-rest";
      if (!rest && part.kind != "break") continue;
      const HalfMinutes start(m_.starts[a]);
      const HalfMinutes end = start + part.length;
      const HalfMinutes reached = reached_.value_or(out_.at);
      if (start >= out_.at || (rest && start >= reached)) continue;
      const bool worked = std::any_of(out_.steps.begin(), out_.steps.end(), [&](const auto& s) {
        return s.second.start < std::min(end, out_.at) && s.second.end > start &&
               share_hands(*by_id_.at(s.first), part);
      });
      const bool told = by_id_.contains(block.id);
      if (!worked && told) out_.steps[block.id] = {start, end, end > out_.at, false};
      if (rest && (worked || !told)) out_.missed.insert(block.id);
    }
  }

  [[nodiscard]] bool share_hands(const Step& step, const Part& part) const {
    return std::any_of(step.uses.begin(), step.uses.end(), [&](const Use& use) {
      const auto& resource = m_.draft.resources[static_cast<std::size_t>(use.resource)];
      return resource.kind == ResourceKind::person &&
             std::any_of(part.uses.begin(), part.uses.end(),
                         [&](const Use& u) { return u.resource == use.resource; });
    });
  }

  void note() {
    int taken = 0, all = 0;
    for (const auto& [id, begun] : out_.steps) {
      const auto& kind = by_id_.at(id)->kind;
      if (kind == "break" || kind == "short-rest") continue;
      ++all;
      if (!begun.said) ++taken;
    }
    if (filled_ > 0) {
      out_.notes.push_back(std::to_string(filled_) +
                           " steps that were to be over by then are not in the journal: taken as " +
                           "done, between the times that are.");
    }
    if (taken == 0 || filled_ > 0) return;
    std::string text = taken == all ? "What is begun is"
                                    : std::to_string(taken) + " of the " + std::to_string(all) +
                                          " steps begun are";
    text += " taken to have gone ";
    text += shift_.count() == 0
                ? "as planned, as no times were given."
                : std::to_string(shift_.count() / 2) + " min later than planned, step by step.";
    out_.notes.push_back(text);
  }

  const Morning& m_;
  const LateNews& news_;
  HalfMinutes shift_{};
  std::optional<HalfMinutes> reached_;  // of the plan, where that was said
  std::map<std::string, const Step*> by_id_;
  std::map<std::string, std::vector<const Step*>> block_of_;  // the steps of the block, in turn
  std::vector<const Step*> named_;
  std::set<std::string> ids_named_;
  int filled_ = 0;  // steps taken as done between those written down
  History out_;
  LateFaults faults_;
};

}  // namespace

std::string clock_time(const session::Day& day, HalfMinutes at) {
  const auto instant = session::opening(day) + std::chrono::duration_cast<std::chrono::seconds>(at);
  const auto local = instant + session::offset_at(day.zone, instant);
  const auto since_midnight = local - std::chrono::floor<std::chrono::days>(local);
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(since_midnight).count();
  const auto two = [](long long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(minutes / 60) + ":" + two(minutes % 60);
}

std::variant<History, LateFaults> history(const Morning& morning, const LateNews& news) {
  return Reader(morning, news).read();
}

}  // namespace dampline::planner
