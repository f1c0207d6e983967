#include <algorithm>

#include <dampline/planner/damping_ways.hpp>
#include <dampline/units/text.hpp>

// A method of the book, planned as it is written.
namespace dampline::planner {
namespace {

using method::Stage;
using units::in_si;

bool is_cover(const Stage& s) { return method::layout_of(s).touches(method::Side::plastic); }

// Up to the last stage that is more than lying under cover; what follows is rest.
std::size_t wetting_stages(const std::vector<Stage>& stages) {
  const auto wet = method::parts_of(stages).wetting.size();
  std::size_t last = wet;
  for (std::size_t i = wet; i < stages.size(); ++i) {
    if (!is_cover(stages[i])) last = i + 1;
  }
  return last;
}

std::string told(const std::vector<Stage>& stages, std::size_t count) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    text += (i == 0 ? "" : ", then ") + stages[i].name;
    if (in_si(stages[i].duration) >= 60) text += " " + minutes_text(stages[i].duration);
  }
  return text;
}

// Hands that are wanted again after the sheets were left alone are not on the clock.
bool hands_return(const std::vector<Stage>& wetting, std::size_t first) {
  bool alone = false;
  for (std::size_t i = first; i < wetting.size(); ++i) {
    const bool hands = method::needs_hands(wetting[i]);
    if (hands && alone) return true;
    if (!hands && in_si(wetting[i].duration) > 300) alone = true;
  }
  return false;
}

}  // namespace

Damping as_written(const session::Session& session, const PaperCase& paper,
                   const method::Method& method) {
  Damping d;
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const auto stages =
      method::settled(paper.sheet, dry, method::stages_for(method, paper.stock), paper.climate);
  const auto count = wetting_stages(stages);
  d.wetting.assign(stages.begin(), stages.begin() + static_cast<std::ptrdiff_t>(count));
  const std::vector<Stage> rest(stages.begin() + static_cast<std::ptrdiff_t>(count), stages.end());
  d.hold = hold_of(session);
  if (d.hold.arrangement == method::Arrangement::covered && !rest.empty()) {
    d.hold.cover = rest.back().cover;
    d.hold.pile = rest.back().pile;
  }

  const bool tub = !d.wetting.empty() && method::uses_tub(d.wetting.front()) &&
                   !method::needs_hands(d.wetting.front());
  const std::size_t first = tub ? 1 : 0;
  if (tub) {
    if (session.damping.soak) d.wetting.front().duration = *session.damping.soak;
    d.treatment.in_tub = true;
    d.treatment.drawn_singly = session.damping.hold == session::Hold::tub;
    d.treatment.soak = rounded_up(d.wetting.front().duration);
    const auto limit = readiness::tub_limit(paper.stock);
    d.treatment.soak_most =
        std::max(limit ? rounded_up(limit->longest) : HalfMinutes(0), d.treatment.soak);
  }
  units::Duration alone{};
  std::vector<Stage> by_hand;
  for (std::size_t i = first; i < d.wetting.size(); ++i) {
    if (method::needs_hands(d.wetting[i])) {
      by_hand.push_back(d.wetting[i]);
    } else {
      alone += d.wetting[i].duration;
    }
  }
  const auto hands = std::max(method::hands_time(by_hand), paper.least_handling);
  d.treatment.handling = rounded_up(hands);
  d.treatment.left_alone = rounded_up(alone);
  d.treatment.handling_word = tub ? "lift" : "damp";
  for (const auto& s : by_hand) d.treatment.handling_word += ", " + s.name;
  // A sheet lies about while the hands' time runs out.
  const auto spare = hands - method::hands_time(by_hand);
  if (in_si(spare) > 0) {
    Stage open = method::left(method::Arrangement::bench, spare);
    open.name = "lay by";
    d.wetting.push_back(open);
  }

  d.summary.push_back("As \"" + method.name + "\" is written: " + told(stages, count) + ".");
  if (hands_return(d.wetting, first)) {
    d.warnings.push_back({"hands-again",
                          "\"" + method.name +
                              "\" wants hands again after the sheets were left alone; the plan "
                              "gives that time at the first handling only",
                          "keep some minutes free for it, or write the method with the handling "
                          "first"});
  }
  if (tub) {
    const auto& soak = d.wetting.front();
    for (const auto& danger :
         readiness::dangers_of_soaking(paper.stock, soak.duration, soak.water)) {
      d.warnings.push_back({danger.code, danger.text, danger.help});
    }
  }
  set_evening(d, session, paper);
  set_forecast(d, session, paper, std::max(paper.least_rest, method::length_of(rest)));
  return d;
}

}  // namespace dampline::planner
