#include <algorithm>

#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/why_link.hpp>

namespace dampline::planner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

std::string sheets_text(const std::vector<int>& sheets) {
  if (sheets.empty()) return {};
  const auto first = std::to_string(sheets.front());
  if (sheets.size() == 1) return ", sheet " + first;
  return ", sheets " + first + "-" + std::to_string(sheets.back());
}

}  // namespace

int Ties::activity_of(const std::string& step) const {
  int best = -1;
  for (int a = 0; a < static_cast<int>(d_.blocks.size()); ++a) {
    const auto& block = d_.blocks[at(a)];
    if (block.parts.empty()) continue;
    if (step == block.id) return a;
    const bool longer = best < 0 || block.id.size() > d_.blocks[at(best)].id.size();
    if (step.starts_with(block.id + "/") && longer) best = a;
  }
  for (std::size_t b = 0; best < 0 && b < d_.soaks.size(); ++b) {
    if (step == "soak-" + std::to_string(b + 1)) best = d_.soaks[b].first;
  }
  return best;
}

const Step* Ties::step_of(int a) const {
  if (d_.blocks[at(a)].parts.empty()) return nullptr;
  const auto& id = d_.blocks[at(a)].id;
  const auto found =
      std::find_if(steps_.begin(), steps_.end(), [&](const Step& s) { return s.id == id; });
  return found == steps_.end() ? nullptr : &*found;
}

std::string Ties::name_of(int a) const {
  if (const auto* pull = pull_in(d_, a)) {
    const auto print = "print " + std::to_string(pull->print);
    return pull->first_on_sheet ? print : print + ", " + plate_of(*pull);
  }
  const auto& parts = d_.blocks[at(a)].parts;
  return parts.empty() ? std::string() : parts.back().what + sheets_text(parts.back().sheets);
}

HalfMinutes Ties::end_of(int a) const {
  const auto* step = step_of(a);
  const int alone = starts_[at(a)] + d_.problem.activities[at(a)].duration;
  return step != nullptr ? step->end : HalfMinutes(alone);
}

Ground Ties::ground(const scheduling::Hold& reason, int first, int then) const {
  if (reason.is_pause) return Ground::away;
  if (reason.resource < 0) return ground_of(d_, first, then, reason.lag);
  const bool at_once = end_of(first).count() >= starts_[at(then)];
  return at_once ? Ground::hands : Ground::changing;
}

WhyLink Ties::link(const std::vector<scheduling::Hold>& reasons, int held, int other,
                   bool from_above) const {
  const int first = from_above ? held : other;
  const int then = from_above ? other : held;
  WhyLink link;
  bool has_ground = false;
  for (const auto& reason : reasons) {
    if (reason.activity != other) continue;
    const bool by_hand = !link.resource.empty() && link.kind == ResourceKind::person;
    if (reason.resource >= 0 && !by_hand) {
      link.resource = d_.resources[at(reason.resource)].name;
      link.kind = d_.resources[at(reason.resource)].kind;
    }
    if (!has_ground) link.ground = ground(reason, first, then);
    has_ground = true;
    if (link.ground == Ground::away) {
      link.start = link.end = HalfMinutes(starts_[at(held)] + (from_above ? reason.lag : 0));
      return link;
    }
  }
  link.start = HalfMinutes(starts_[at(link.ground == Ground::set_time ? held : other)]);
  link.end = end_of(other);
  link.name = name_of(other);
  if (const auto* step = step_of(other)) link.step = step->id;
  measure(first, then, link);
  return link;
}

void Ties::measure(int first, int then, WhyLink& link) const {
  switch (link.ground) {
    case Ground::rest:
      return measure_cover(first, then, false, link);
    case Ground::keeps:
      return measure_cover(then, first, true, link);
    case Ground::soak:
      link.wait = under_water(first, then, false);
      return;
    case Ground::tub_limit:
      link.wait = under_water(then, first, true);
      return;
    case Ground::ink_waits:
      link.wait = inked(then, first);
      return;
    case Ground::changing:
      link.wait = HalfMinutes(starts_[at(then)]) - end_of(first);
      return;
    default:
      return;
  }
}

// How long the sheets wait under cover: the shortest wait, or the longest.
void Ties::measure_cover(int covering, int pulling, bool longest, WhyLink& link) const {
  for (const auto& pull : d_.pulls) {
    const auto& sheet = d_.sheets[at(pull.sheet - 1)];
    if (pull.pulled.activity != pulling || sheet.covered.activity != covering) continue;
    const auto waited = when(pull.pulled, starts_) - when(sheet.covered, starts_);
    if (link.wait == HalfMinutes(0) || (waited > link.wait) == longest) {
      link.wait = waited;
      link.print = pull.print;
      link.pulled = when(pull.pulled, starts_);
    }
  }
}

HalfMinutes Ties::under_water(int loading, int lifting, bool longest) const {
  HalfMinutes found{};
  for (const auto& sheet : d_.sheets) {
    if (sheet.lifted.activity != lifting || sheet.wet.activity != loading) continue;
    const auto soaked = when(sheet.lifted, starts_) - end_of(loading);
    if (found == HalfMinutes(0) || (soaked > found) == longest) found = soaked;
  }
  return found;
}

HalfMinutes Ties::inked(int charging, int pulling) const {
  const auto& plate = d_.blocks[at(charging)].parts.front().plate;
  HalfMinutes waited{};
  for (const auto& pull : d_.pulls) {
    if (pull.pulled.activity != pulling || plate_of(pull) != plate) continue;
    waited = std::max(waited, when(pull.pulled, starts_) - end_of(charging));
  }
  return waited;
}

std::string Ties::plate_of(const DraftPull& pull) const {
  HalfMinutes begins{};
  for (const auto& part : d_.blocks[at(pull.pulled.activity)].parts) {
    if (begins == pull.pulled.offset && part.kind == "pull") return part.plate;
    begins += part.length;
  }
  return {};
}

}  // namespace dampline::planner
