#include <algorithm>

#include <dampline/planner/history_check.hpp>
#include <dampline/planner/lay_out.hpp>

namespace dampline::planner {
namespace {

constexpr std::size_t most_faults = 5;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Check {
 public:
  Check(const Morning& morning, const History& history) : m_(morning), h_(history) {}

  LateFaults all() {
    bounds();
    if (faults_.empty()) order();
    if (faults_.empty()) wetted_first();
    if (faults_.empty()) one_place_each();
    if (faults_.size() > most_faults) faults_.resize(most_faults);
    return std::move(faults_);
  }

 private:
  [[nodiscard]] std::string time(HalfMinutes t) const { return clock_time(m_.session.day, t); }

  [[nodiscard]] const Begun* begun(const std::string& id) const {
    const auto found = h_.steps.find(id);
    return found == h_.steps.end() ? nullptr : &found->second;
  }
  [[nodiscard]] const Begun* begun(int a, std::size_t part) const {
    return begun(step_id(m_.draft.blocks[at(a)], part));
  }
  [[nodiscard]] std::string named(const std::string& id) const {
    const auto* b = begun(id);
    return "\"" + id + "\"" + (b != nullptr && !b->said ? " (as planned)" : "");
  }

  void fault(std::string what, std::string help) {
    faults_.push_back({std::move(what), std::move(help)});
  }

  void bounds() {
    for (const auto& [id, b] : h_.steps) {
      if (b.start < HalfMinutes(0)) {
        fault(named(id) + " begins at " + time(b.start) + ", before the studio opens at " +
                  time(HalfMinutes(0)),
              "give its real start: " + id + "@" + time(HalfMinutes(0)));
      } else if (b.start > h_.at || (!b.running && b.end > h_.at)) {
        fault(named(id) + " ends at " + time(b.end) + ", after " + time(h_.at),
              "say when it was, or name it under --running");
      }
    }
  }

  // An activity that is begun, and its first step.
  [[nodiscard]] std::pair<std::string, const Begun*> first_begun(int a) const {
    const auto& block = m_.draft.blocks[at(a)];
    for (std::size_t i = 0; i < block.parts.size(); ++i) {
      if (const auto* b = begun(a, i)) return {block.id, b};
    }
    return {"", nullptr};
  }

  void after(int a, HalfMinutes offset, const std::string& later, const Begun& b) {
    const auto& block = m_.draft.blocks[at(a)];
    HalfMinutes until{};
    for (std::size_t i = 0; i < block.parts.size(); ++i) {
      until += block.parts[i].length;
      if (until > offset) return;
      const auto id = step_id(block, i);
      const auto* first = begun(id);
      const bool needless = first == nullptr && block.parts[i].kind == "wash-hands";
      if (needless) continue;
      if (first == nullptr || first->running) {
        return fault(
            "\"" + later + "\" is begun, but \"" + block.id + "\" has to be done before it",
            first == nullptr ? "name " + block.id + " too, or say --done-until " + later
                             : "name it under --done with the time it ended");
      }
      if (first->end > b.start) {
        return fault("\"" + later + "\" begins at " + time(b.start) + ", but " + named(id) +
                         " before it ends at " + time(first->end),
                     "give the real times of both");
      }
    }
  }

  void order() {
    const auto& p = m_.draft.problem;
    for (int a = 0; a < static_cast<int>(m_.draft.blocks.size()); ++a) within(a);
    for (const auto& lag : p.lags) {
      if (lag.from == p.source || lag.to == p.sink || lag.least < 0) continue;
      if (m_.draft.blocks[at(lag.from)].id.starts_with("short-rest")) continue;  // may be missed
      const auto [later, b] = first_begun(lag.to);
      if (b == nullptr) continue;
      const HalfMinutes length(p.activities[at(lag.from)].duration);
      after(lag.from, lag.from_end ? length : std::min(length, HalfMinutes(lag.least)), later, *b);
    }
  }

  void within(int a) {
    const auto& block = m_.draft.blocks[at(a)];
    const Begun* last = nullptr;
    std::string last_id;
    for (std::size_t i = 0; i < block.parts.size(); ++i) {
      const auto* b = begun(a, i);
      if (b == nullptr) continue;
      const auto id = step_id(block, i);
      if (last != nullptr && (last->running || last->end > b->start)) {
        fault(named(id) + " begins at " + time(b->start) + ", but " + named(last_id) +
                  " before it ends at " + time(last->end),
              "give the real times of both");
      }
      last = b;
      last_id = id;
    }
  }

  // No sheet is laid on a plate before it is damp.
  void wetted_first() {
    for (const auto& pull : m_.draft.pulls) {
      const auto [later, b] = first_begun(pull.laid.activity);
      const auto& covered = m_.draft.sheets[at(pull.sheet - 1)].covered;
      if (b == nullptr || covered.activity == m_.draft.problem.source) continue;
      const auto& id = m_.draft.blocks[at(covered.activity)].id;
      if (begun(id) != nullptr) continue;
      fault("\"" + later + "\" is begun, but \"" + id + "\", which damps its sheet, is not",
            "name " + id + " too, or say --done-until " + later);
    }
  }

  void one_place_each() {
    struct Stay {
      HalfMinutes start, end;
      const Step* step;
    };
    for (std::size_t r = 0; r < m_.draft.resources.size(); ++r) {
      const auto& resource = m_.draft.resources[r];
      if (resource.kind != ResourceKind::person && resource.kind != ResourceKind::press) continue;
      std::vector<Stay> stays;
      for (const auto& step : m_.steps) {
        const bool uses = std::any_of(step.uses.begin(), step.uses.end(), [&](const Use& use) {
          return use.resource == static_cast<int>(r);
        });
        if (const auto* b = begun(step.id); uses && b != nullptr && b->end > b->start) {
          stays.push_back({b->start, b->end, &step});
        }
      }
      std::stable_sort(stays.begin(), stays.end(),
                       [](const Stay& a, const Stay& b) { return a.start < b.start; });
      for (std::size_t i = 1; i < stays.size(); ++i) {
        if (stays[i].start >= stays[i - 1].end) continue;
        fault(resource.name + " would be in two places: " + named(stays[i - 1].step->id) +
                  " until " + time(stays[i - 1].end) + " and " + named(stays[i].step->id) +
                  " from " + time(stays[i].start),
              "give the real times of both, as in --done " + stays[i].step->id + "@" +
                  time(stays[i - 1].end));
      }
    }
  }

  const Morning& m_;
  const History& h_;
  LateFaults faults_;
};

}  // namespace

LateFaults faults_of(const Morning& morning, const History& history) {
  return Check(morning, history).all();
}

}  // namespace dampline::planner
