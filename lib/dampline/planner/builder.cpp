#include <algorithm>
#include <cmath>

#include <dampline/planner/builder.hpp>
#include <dampline/planner/today.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::planner {

HalfMinutes half_minutes(units::Duration t) {
  return HalfMinutes(static_cast<int>(std::ceil(units::in_si(t) / 30 - 1e-9)));
}

Builder::Builder(const session::Session& session, const Craft& craft, const Treatment& treatment,
                 const Extent& extent)
    : s_(session),
      craft_(craft),
      t_(treatment),
      extent_(extent),
      teams_(teams(session)),
      lanes_(lanes(session)),
      sheet_size_(session.paper.sheet) {
  lanes_.resize(std::min(lanes_.size(), static_cast<std::size_t>(std::max(extent.presses, 1))));
  for (const auto& plate : session.plates) today_.push_back(is_today(session, plate.name));
}

Draft Builder::build() {
  d_.problem.horizon = day_length(s_).count();
  d_.problem.source = activity({"source", {}});
  d_.problem.sink = activity({"sink", {}});
  name_resources();
  place_breaks();
  list_pulls();
  set_up();
  wet_the_sheets();
  print();
  clean_up();
  finish();
  place_rests();
  return std::move(d_);
}

int Builder::activity(Block block) {
  std::replace(block.id.begin(), block.id.end(), ' ', '-');
  HalfMinutes length{};
  std::vector<scheduling::Use> uses;
  for (const auto& part : block.parts) {
    length += part.length;
    for (const auto& use : part.uses) hold(uses, use);
  }
  const int index = scheduling::add_activity(d_.problem, block.id, length.count(), uses);
  d_.blocks.push_back(std::move(block));
  if (index > 1) after_source(index, HalfMinutes(0));
  return index;
}

void Builder::hold(std::vector<scheduling::Use>& uses, const Use& use) const {
  const auto kind = d_.resources[static_cast<std::size_t>(use.resource)].kind;
  if (kind == ResourceKind::plate || kind == ResourceKind::tub || kind == ResourceKind::drying) {
    return;
  }
  for (auto& held : uses) {
    if (held.resource == use.resource) {
      held.amount = std::max(held.amount, use.amount);
      return;
    }
  }
  uses.push_back({use.resource, use.amount});
}

Part Builder::part(const std::string& kind, int person, int plate, double times) const {
  const auto& step = step_kind(craft_, kind);
  Part p;
  p.kind = kind;
  p.what = step.what;
  p.cue = step.cue;
  auto time = step_time(craft_, kind, size_for(plate));
  bool own_time = false;
  if (plate != no_plate) {
    const auto& of_plate = s_.plates[static_cast<std::size_t>(plate)];
    p.plate = of_plate.name;
    if (const auto own = of_plate.times.find(kind); own != of_plate.times.end()) {
      time = own->second;
      own_time = true;
    } else {
      times *= slowed(craft_, of_plate.extras, kind);
    }
  }
  const double paced = own_time || person < 0 ? 1 : pace(person);
  p.length = half_minutes(units::seconds(units::in_si(time) * times * paced));
  if (person >= 0) p.uses.push_back({ix_.person[static_cast<std::size_t>(person)], 1});
  return p;
}

int Builder::resource(const std::string& name, ResourceKind kind, int capacity) {
  // Outputs refer to resources by name: a plate named like a person is told apart.
  const auto taken = [&](const std::string& n) {
    return std::any_of(d_.resources.begin(), d_.resources.end(),
                       [&](const Resource& r) { return r.name == n; });
  };
  std::string own = name;
  for (int i = 2; taken(own); ++i) own = name + " (" + std::to_string(i) + ")";
  d_.resources.push_back({own, kind, capacity});
  return scheduling::add_resource(d_.problem, own, capacity);
}

void Builder::name_resources() {
  for (const auto& p : s_.people) {
    ix_.person.push_back(resource(p.name, ResourceKind::person, 1));
  }
  for (const auto& p : s_.equipment.presses) {
    ix_.press.push_back(resource(p.name, ResourceKind::press, 1));
  }
  if (s_.equipment.tub) ix_.tub = resource("tub", ResourceKind::tub, s_.equipment.tub->sheets);
  const int people = static_cast<int>(s_.people.size());
  const int places = std::clamp(s_.equipment.blotters / craft_.blotters_a_place, 1, people);
  ix_.bench = resource("blotting place", ResourceKind::blotting_place, places);
  for (std::size_t i = 0; i < s_.plates.size(); ++i) {
    const auto& p = s_.plates[i];
    ix_.plate.push_back(today_[i] ? resource(p.name, ResourceKind::plate, p.copies) : -1);
  }
  if (s_.equipment.hot_plate) {
    ix_.hot_plate = resource("hot plate", ResourceKind::hot_plate, people);
  }
  if (s_.equipment.drying_places) {
    ix_.drying = resource("drying places", ResourceKind::drying, *s_.equipment.drying_places);
  }
  keep_hours();
}

void Builder::list_pulls() {
  const auto order = plates_today(s_);
  const int rounds = extent_.proofs + extent_.prints;
  int sheet = 0;
  int print = 0;
  for (int round = 0; round < rounds; ++round) {
    const bool proof = round < extent_.proofs;
    for (const auto& name : order) {
      const int plate = plate_named(name);
      const bool fresh = name == order.front() || s_.edition.sheet_each;
      if (fresh) {
        ++sheet;
        ++print;
        d_.sheets.push_back({sheet, 0, {}, {}, {}});
      }
      DraftPull pull;
      pull.print = print;
      pull.proof = proof;
      pull.plate = plate;
      pull.sheet = sheet;
      pull.first_on_sheet = fresh;
      share_out(pull);
      d_.pulls.push_back(pull);
    }
  }
  const int sheets = sheet;
  const int batches = t_.before_day ? 1 : std::clamp(extent_.batches, 1, std::max(sheets, 1));
  auto in_each = extent_.sheets_in;
  if (in_each.empty()) {
    for (int b = 0; b < batches; ++b) {
      in_each.push_back(sheets * (b + 1) / batches - sheets * b / batches);
    }
  }
  int next = 1;
  for (const int count : in_each) {
    DraftBatch batch;
    for (; static_cast<int>(batch.sheets.size()) < count && next <= sheets; ++next) {
      d_.sheets[static_cast<std::size_t>(next - 1)].batch = static_cast<int>(d_.batches.size());
      batch.sheets.push_back(next);
    }
    if (!batch.sheets.empty()) d_.batches.push_back(batch);
  }
}

// Prints go to the presses in turn, each with all its plates. Of prints alike at presses alike that
// loses nothing: taken in their order, each finds the one before the last off the press.
void Builder::share_out(DraftPull& pull) const {
  const auto& team = teams_[static_cast<std::size_t>(pull.plate)];
  pull.press = team.press;
  pull.printer = team.handler;
  if (lanes_.size() < 2) return;
  const auto& lane = lanes_[static_cast<std::size_t>(pull.print - 1) % lanes_.size()];
  pull.press = lane.press;
  pull.printer = lane.handler;
}

int Builder::plate_named(const std::string& name) const {
  for (std::size_t i = 0; i < s_.plates.size(); ++i) {
    if (s_.plates[i].name == name) return static_cast<int>(i);
  }
  return 0;
}

bool Builder::inks_too(int person) const {
  return std::any_of(teams_.begin(), teams_.end(),
                     [&](const Team& t) { return t.inker == person; });
}

void Builder::wash_first(Block& block, int person) const {
  if (inks_too(person)) block.parts.push_back(part("wash-hands", person));
}

bool Builder::held_by(int a, int person) const {
  const auto& uses = d_.problem.activities[static_cast<std::size_t>(a)].uses;
  const int r = ix_.person[static_cast<std::size_t>(person)];
  return std::any_of(uses.begin(), uses.end(), [&](const auto& u) { return u.resource == r; });
}

void Builder::finish() {
  for (int a = 2; a < static_cast<int>(d_.problem.activities.size()); ++a) {
    if (d_.blocks[static_cast<std::size_t>(a)].id.starts_with("break")) continue;
    in_turn(a, d_.problem.sink);
  }
  std::reverse(d_.movable_later.begin(), d_.movable_later.end());
}

}  // namespace dampline::planner
