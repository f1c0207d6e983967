#include <algorithm>
#include <set>

#include <dampline/report/characters.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::ResourceKind;
using planner::Step;

bool has_lane(ResourceKind kind) {
  return kind == ResourceKind::person || kind == ResourceKind::press || kind == ResourceKind::tub ||
         kind == ResourceKind::plate;
}

/// The half hour of the wall clock at or before (or after) a time.
HalfMinutes half_hour(const Plan& plan, const Clock& clock, HalfMinutes at, Round round) {
  const Instant when = instant(plan, at);
  const int past =
      static_cast<int>(minute_of_day(clock, when).count() % 30) * 2 + ((at.count() % 2) + 2) % 2;
  if (round == Round::down || past == 0) return at - HalfMinutes(past);
  return at + HalfMinutes(60 - past);
}

bool is_proof(const Plan& plan, int print) {
  return std::any_of(plan.pulls.begin(), plan.pulls.end(),
                     [print](const auto& p) { return p.print == print && p.proof; });
}

std::string bar_label(const Plan& plan, const Step& step) {
  if (step.print > 0) return std::to_string(step.print) + (is_proof(plan, step.print) ? "p" : "");
  return number_list(step.sheets);
}

Bar bar(const Plan& plan, const Step& step, int amount) {
  Bar out;
  out.start = step.start;
  out.end = step.end;
  out.family = family_of(step.kind);
  out.label = bar_label(plan, step);
  out.what = clean(step.what);
  out.amount = amount;
  out.pull = step.kind == "pull";
  return out;
}

/// Whether `next` only goes on with what `last` began.
bool continues(const Bar& last, const Bar& next) {
  return last.family == next.family && last.label == next.label && last.end == next.start &&
         last.amount == next.amount;
}

Lane lane(const Plan& plan, int resource) {
  const auto& r = plan.resources[static_cast<std::size_t>(resource)];
  Lane out{clean(r.name), r.kind, r.capacity, {}};
  for (const auto& step : plan.steps) {
    for (const auto& use : step.uses) {
      if (use.resource != resource || step.end == step.start) continue;
      Bar next = bar(plan, step, use.amount);
      if (!out.bars.empty() && continues(out.bars.back(), next)) {
        out.bars.back().end = next.end;
        out.bars.back().pull = out.bars.back().pull || next.pull;
      } else {
        out.bars.push_back(std::move(next));
      }
    }
  }
  return out;
}

std::string describe(const Plan& plan, const Clock& clock, const Chart& chart) {
  const auto at = [&](HalfMinutes t) { return clock_text(clock, instant(plan, t)); };
  std::string out = "One lane each for ";
  for (std::size_t i = 0; i < chart.lanes.size(); ++i) {
    if (i > 0) out += i + 1 == chart.lanes.size() ? " and " : ", ";
    out += chart.lanes[i].name;
  }
  out += ", from " + at(chart.from) + " to " + at(chart.to) + ".";
  for (const auto& pause : chart.pauses) {
    out += " Break " + at(pause.start) + " to " + at(pause.end) + ".";
  }
  return out + " The same times stand in the steps on the clock.";
}

std::string describe_curve(const Plan& plan, const Clock& clock, const planner::Batch& batch) {
  const auto at = [&](HalfMinutes t, Round r = Round::down) {
    return clock_text(clock, instant(plan, t), r);
  };
  const auto share = [](units::Moisture m) { return units::fixed(m.parts_of_one(), 2); };
  std::string out =
      "Mean moisture of " + clean(batch.what) +
      " in grams of water per gram of dry "
      "paper, with the band that holds eight of ten likely sheets. Printable between " +
      share(batch.band_low) + " and " + share(batch.band_high) + ", here from " +
      at(batch.ready_from, Round::up) + " to " + at(batch.ready_until) + ".";
  if (!batch.curve.empty()) {
    const auto& end = batch.curve.back();
    out += " At " + at(end.at) + " the estimate is " + share(end.mean) + ".";
  }
  return out;
}

/// Fills in the batch's window in words.
void window(const Plan& plan, const Clock& clock, PaperBatch& paper) {
  const auto at = [&](HalfMinutes t, Round r = Round::down) {
    const Instant when = instant(plan, t);
    const bool other_day = local_day(clock, when) != local_day(clock, plan.opens);
    return (other_day ? short_date_text(clock, when) + " " : "") + clock_text(clock, when, r);
  };
  const auto& batch = paper.batch;
  paper.printable = at(batch.ready_from, Round::up) + " to " + at(batch.ready_until);
  paper.window = "wet from " + at(batch.wet_from) + ", covered " +
                 at(batch.covered_from, Round::up) + ", printable " + paper.printable;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

}  // namespace

std::vector<Tick> hour_ticks(const Plan& plan, const Clock& clock, HalfMinutes from,
                             HalfMinutes to) {
  std::vector<Tick> out;
  for (HalfMinutes at = half_hour(plan, clock, from, Round::up); at <= to; at += HalfMinutes(60)) {
    const Instant when = instant(plan, at);
    if (minute_of_day(clock, when).count() % 60 == 0) out.push_back({at, clock_text(clock, when)});
  }
  return out;
}

Chart chart(const Plan& plan, const Clock& clock) {
  Chart out;
  HalfMinutes from{}, to = plan.finish;
  int before = 0;
  const auto first_day = local_day(clock, plan.opens);
  for (const auto& step : plan.steps) {
    // Work of an earlier day would squeeze this one into a corner: it is told in words.
    if (local_day(clock, instant(plan, step.start)) < first_day) {
      ++before;
    } else {
      from = std::min(from, step.start);
    }
    to = std::max(to, step.end);
  }
  out.from = half_hour(plan, clock, from, Round::down);
  out.to = half_hour(plan, clock, to, Round::up);
  out.hours = hour_ticks(plan, clock, out.from, out.to);
  std::set<Family> seen;
  for (std::size_t i = 0; i < plan.resources.size(); ++i) {
    if (!has_lane(plan.resources[i].kind)) continue;
    Lane next = lane(plan, static_cast<int>(i));
    std::erase_if(next.bars, [&](const Bar& b) { return b.end <= out.from; });
    for (auto& b : next.bars) {
      b.start = std::max(b.start, out.from);
      seen.insert(b.family);
      if (b.family == Family::pause) out.pauses.push_back(b);
    }
    out.lanes.push_back(std::move(next));
  }
  const auto by_start = [](const Bar& a, const Bar& b) {
    return std::pair(a.start, a.end) < std::pair(b.start, b.end);
  };
  std::sort(out.pauses.begin(), out.pauses.end(), by_start);
  const auto same = [](const Bar& a, const Bar& b) { return a.start == b.start && a.end == b.end; };
  out.pauses.erase(std::unique(out.pauses.begin(), out.pauses.end(), same), out.pauses.end());
  out.key.assign(seen.begin(), seen.end());
  if (before > 0) out.before = "What is done before the day stands in the steps, not here.";
  out.description = describe(plan, clock, out);
  return out;
}

std::vector<PaperBatch> paper_batches(const Plan& plan, const Clock& clock) {
  std::vector<PaperBatch> out;
  for (const auto& batch : plan.batches) {
    PaperBatch next;
    next.heading = capitalised(clean(batch.what));
    next.description = describe_curve(plan, clock, batch);
    next.batch = batch;
    window(plan, clock, next);
    if (!batch.curve.empty()) {
      next.hours = hour_ticks(plan, clock, batch.curve.front().at, batch.curve.back().at);
    }
    for (const auto& pull : plan.pulls) {
      if (std::find(batch.sheets.begin(), batch.sheets.end(), pull.sheet) == batch.sheets.end()) {
        continue;
      }
      next.pulls.push_back({pull.at, pull.moisture.mean.parts_of_one()});
    }
    out.push_back(std::move(next));
  }
  return out;
}

}  // namespace dampline::report
