#include <algorithm>
#include <map>

#include <dampline/method/over_samples.hpp>
#include <dampline/method/scores.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/timeline.hpp>
#include <dampline/planner/verify.hpp>

namespace dampline::planner {
namespace {

using units::in_si;

constexpr double low_share = 0.1;
constexpr double high_share = 0.9;

method::RunOptions ends_only() {
  method::RunOptions o;
  o.sample_every = units::seconds(0);
  return o;
}

// A sheet's way through the day: dry, it is in balance with the mean of the room.
struct Day {
  const method::Sheet& sheet;
  const air::Climate& mean;
  const air::Room& air;
  units::Duration since;  // on the clock of the air
};

// One reading for the day knows no clock; leaving it at zero keeps rounding out of the stages.
units::Duration since(const PaperCase& paper, HalfMinutes begins) {
  if (!paper.air.logged()) return {};
  return paper.opens + units::seconds(begins.count() * 30.0);
}

std::vector<method::StageEnd> ends(const Day& day, const std::vector<method::Stage>& stages) {
  auto options = ends_only();
  options.since = day.since;
  return method::run(day.sheet, method::conditioned(day.sheet, day.mean), stages, day.air, options)
      .ends;
}

MoistureAt moisture_at(const method::Sample& sample, const std::vector<double>& likely_means) {
  MoistureAt m;
  m.mean = sample.mean;
  m.surface = sample.surface;
  m.driest = sample.driest;
  m.low = units::Moisture(method::at_share(likely_means, low_share));
  m.high = units::Moisture(method::at_share(likely_means, high_share));
  return m;
}

struct SheetCheck {
  const session::Session& session;
  const PaperCase& paper;
  const Damping& damping;
  const Registering& registering;
  const Draft& draft;
  const std::vector<int>& starts;

  void add(const DraftSheet& sheet, std::vector<CheckedPull>& out) const {
    const auto pulls = pulls_of(draft, sheet.number, starts);
    if (pulls.empty()) return;
    const auto timeline = timeline_of(sheet, pulls, damping, starts);
    const auto begins = since(paper, timeline.begins);
    const auto expected = ends({paper.sheet, paper.climate, paper.air, begins}, timeline.stages);
    const std::size_t likely_sheets = paper.likely_sheets.size();
    // By pull, one a likely sheet.
    std::vector means(pulls.size(), std::vector<double>(likely_sheets));
    std::vector ready(pulls.size(), std::vector<char>(likely_sheets));
    std::vector grown(pulls.size(), std::vector<size::Growth>(likely_sheets));
    method::over_samples(likely_sheets, [&](std::size_t k) {
      const auto stages = method::drawn(timeline.stages, paper.draws[k]);
      const auto reached = ends(
          {paper.likely_sheets[k], paper.likely_rooms[k], paper.likely_airs[k], begins}, stages);
      for (std::size_t i = 0; i < pulls.size(); ++i) {
        const auto& state = reached[timeline.pull_after[i]].state;
        means[i][k] = method::sample_of(state).mean.parts_of_one();
        const auto verdict = readiness::judge(state, paper.likely_sheets[k], paper.band).verdict;
        ready[i][k] = verdict == readiness::Verdict::ready ? 1 : 0;
        grown[i][k] = registering.growth(static_cast<int>(k), state);
      }
    });
    size::Growth first{};
    for (std::size_t i = 0; i < pulls.size(); ++i) {
      const auto& state = expected[timeline.pull_after[i]].state;
      CheckedPull c = named(sheet, pulls[i]);
      c.pull.moisture = moisture_at(method::sample_of(state), means[i]);
      c.judgement = readiness::judge(state, paper.sheet, paper.band);
      const auto found = std::count(ready[i].begin(), ready[i].end(), 1);
      c.pull.ready = units::Chance(
          likely_sheets == 0 ? 0 : static_cast<double>(found) / static_cast<double>(likely_sheets));
      const auto growth = registering.growth(-1, state);
      c.pull.along = growth.along;
      c.pull.across = growth.across;
      const bool on_it = registering.printed() > 0;  // an image, from another day
      if (i == 0) first = on_it ? registering.image(-1) : growth;
      if (i > 0 || on_it) {
        std::vector<Registering::Pair> likely;
        for (std::size_t k = 0; k < grown[i].size(); ++k) {
          const auto then = on_it ? registering.image(static_cast<int>(k)) : grown.front()[k];
          likely.push_back({then, grown[i][k]});
        }
        c.pull.misfit = registering.misfit(
            c.pull.plate, registering.printed() + static_cast<int>(i), {first, growth}, likely);
      }
      out.push_back(std::move(c));
    }
  }

  [[nodiscard]] CheckedPull named(const DraftSheet& sheet, const DraftPull& pull) const {
    CheckedPull c;
    const HalfMinutes covered = when(sheet.covered, starts);
    c.pull.print = pull.print;
    c.pull.proof = pull.proof;
    c.pull.plate = session.plates[static_cast<std::size_t>(pull.plate)].name;
    c.pull.printer = session.people[static_cast<std::size_t>(pull.printer)].name;
    c.pull.sheet = pull.sheet;
    c.pull.at = when(pull.pulled, starts);
    const auto window = window_of(damping.treatment, sheet.number, covered);
    c.pull.ready_from = window.from;
    c.pull.ready_until = window.until;
    c.waited = c.pull.at - covered;
    return c;
  }
};

}  // namespace

std::vector<CheckedPull> check_pulls(const session::Session& session, const PaperCase& paper,
                                     const Damping& damping, const Registering& registering,
                                     const Draft& draft, const std::vector<int>& starts) {
  const SheetCheck check{session, paper, damping, registering, draft, starts};
  std::vector<CheckedPull> out;
  for (const auto& sheet : draft.sheets) check.add(sheet, out);
  std::stable_sort(out.begin(), out.end(), [](const CheckedPull& a, const CheckedPull& b) {
    return a.pull.at < b.pull.at;
  });
  return out;
}

namespace {

constexpr int most_points = 160;  // of a curve: enough for a page

// Mean and surface of a run at whole multiples of a step from its beginning.
std::vector<method::Sample> sampled(const Day& day, const std::vector<method::Stage>& stages,
                                    double step_s, int count) {
  method::RunOptions o;
  o.sample_every = units::seconds(step_s);
  o.since = day.since;
  const auto dry = method::conditioned(day.sheet, day.mean);
  const auto history = method::run(day.sheet, dry, stages, day.air, o);
  std::vector<method::Sample> out;
  std::size_t at = 0;
  for (int i = 0; i < count; ++i) {
    const auto early = [&](const method::Sample& s) {
      return in_si(s.at) - in_si(day.since) < i * step_s - 1e-6;
    };
    while (at + 1 < history.curve.size() && early(history.curve[at])) ++at;
    out.push_back(history.curve[at]);
  }
  return out;
}

Batch named_batch(const PaperCase& paper, const Damping& damping, const DraftBatch& b,
                  const std::vector<int>& starts) {
  Batch batch;
  batch.sheets = b.sheets;
  // Sheets drawn one by one each have a window of their own; the last is shown.
  if (damping.treatment.drawn_singly) batch.sheets = {b.sheets.back()};
  batch.what = batch.sheets.size() == 1 ? "sheet " + std::to_string(batch.sheets.front())
                                        : "sheets " + std::to_string(b.sheets.front()) + "-" +
                                              std::to_string(b.sheets.back());
  batch.wet_from = when(b.wet_from, starts);
  batch.covered_from = when(b.covered_from, starts);
  const auto window = window_of(damping.treatment, batch.sheets.back(), batch.covered_from);
  batch.ready_from = window.from;
  batch.ready_until = window.until;
  batch.band_low = paper.band.low.value;
  batch.band_high = paper.band.high.value;
  return batch;
}

}  // namespace

std::vector<Batch> follow_batches(const PaperCase& paper, const Damping& damping,
                                  const Draft& draft, const std::vector<int>& starts) {
  std::vector<Batch> out;
  for (const auto& b : draft.batches) {
    if (b.sheets.empty()) continue;
    Batch batch = named_batch(paper, damping, b, starts);
    // The last sheet of the batch stands for it: it waits longest for its pull.
    const auto& sheet = draft.sheets[static_cast<std::size_t>(b.sheets.back() - 1)];
    const auto timeline =
        timeline_of(sheet, pulls_of(draft, sheet.number, starts), damping, starts);
    double length = 0;
    for (const auto& stage : timeline.stages) length += in_si(stage.duration);
    const double step = std::max(60.0, std::ceil(length / most_points / 60) * 60);
    const int count = static_cast<int>(length / step) + 1;
    const auto begins = since(paper, timeline.begins);
    const auto expected =
        sampled({paper.sheet, paper.climate, paper.air, begins}, timeline.stages, step, count);
    std::vector means(expected.size(), std::vector<double>(paper.likely_sheets.size()));
    method::over_samples(paper.likely_sheets.size(), [&](std::size_t k) {
      const auto stages = method::drawn(timeline.stages, paper.draws[k]);
      const auto one =
          sampled({paper.likely_sheets[k], paper.likely_rooms[k], paper.likely_airs[k], begins},
                  stages, step, count);
      for (std::size_t i = 0; i < one.size(); ++i) means[i][k] = one[i].mean.parts_of_one();
    });
    for (std::size_t i = 0; i < expected.size(); ++i) {
      Batch::Point p;
      p.at = timeline.begins + HalfMinutes(static_cast<int>(static_cast<double>(i) * step / 30));
      p.mean = expected[i].mean;
      p.surface = expected[i].surface;
      p.low = units::Moisture(method::at_share(means[i], low_share));
      p.high = units::Moisture(method::at_share(means[i], high_share));
      batch.curve.push_back(p);
    }
    out.push_back(std::move(batch));
  }
  return out;
}

}  // namespace dampline::planner
