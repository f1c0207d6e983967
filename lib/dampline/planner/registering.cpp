#include <algorithm>
#include <cmath>

#include <dampline/planner/paper_case.hpp>
#include <dampline/planner/registering.hpp>
#include <dampline/planner/today.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using units::Duration;

const Duration followed = units::hours(24);

// As the builder has it: an own time is taken as written, extras slow the usual one.
Duration own_or_usual(const session::Plate& plate, const Craft& craft, const std::string& step) {
  const auto own = plate.times.find(step);
  return own != plate.times.end()
             ? own->second
             : step_time(craft, step, plate.size) * slowed(craft, plate.extras, step);
}

Duration charging_time(const session::Plate& plate, const Craft& craft) {
  Duration sum{};
  for (const auto& step : charging(craft, plate.process, plate.extras)) {
    sum += own_or_usual(plate, craft, step);
  }
  return sum;
}

size::Drying drying_of(session::DryingMethod m) {
  switch (m) {
    case session::DryingMethod::boards:
      return size::Drying::boards;
    case session::DryingMethod::rack:
      return size::Drying::rack;
    case session::DryingMethod::tape:
      return size::Drying::tape;
    case session::DryingMethod::line:
      break;
  }
  return size::Drying::line;
}

}  // namespace

const session::Plate& plate_named(const session::Session& s, const std::string& name) {
  return *std::find_if(s.plates.begin(), s.plates.end(),
                       [&](const session::Plate& p) { return p.name == name; });
}

bool plates_meet(const session::Session& s) { return s.plates.size() > 1 && !s.edition.sheet_each; }

size::Printing printing_of(const session::Session& s, const Craft& craft, const PaperCase& paper,
                           const Damping& damping) {
  size::Printing p;
  p.stock = paper.stock;
  p.sheet_short = paper.sheet.width;
  p.sheet_long = paper.sheet.height;
  p.room = paper.climate;
  p.grain = grain_of(s.paper.grain);
  p.locate = locate_of(s.registering.locate);
  p.placing = s.registering.placing;
  p.tolerance = s.registering.tolerance;
  for (const auto& name : s.edition.order) {
    const auto& plate = plate_named(s, name);
    p.plates.push_back({plate.name, std::max(plate.size.width, plate.size.height),
                        std::min(plate.size.width, plate.size.height),
                        charging_time(plate, craft)});
    p.laying = std::max(p.laying, own_or_usual(plate, craft, "place"));
    p.change = own_or_usual(plate, craft, "change-plate");
    if (s.edition.sheet_each) break;  // one plate a sheet: nothing to meet
  }
  p.damping = damping.wetting;
  auto rest = damping.hold;
  rest.duration = std::max(units::seconds(damping.treatment.opens.count() * 30.0),
                           damping.ready ? units::seconds(0) : paper.least_rest);
  p.damping.push_back(rest);
  p.drying = drying_of(s.equipment.drying);
  return p;
}

size::Order order_of(const session::Session& s) {
  std::vector<size::OrderedPlate> plates;
  const auto& order = s.edition.order;
  const bool named = std::any_of(order.begin(), order.end(), size::is_key);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const auto& plate = plate_named(s, order[i]);
    const bool key = named ? size::is_key(plate.name) : i + 1 == order.size();
    plates.push_back({plate.name, std::max(plate.size.width, plate.size.height),
                      std::min(plate.size.width, plate.size.height), s.registering.tolerance, key});
  }
  return size::best_order(plates);
}

std::optional<std::string> put_in_order(session::Session& s) {
  if (!plates_meet(s) || s.edition.order_given || !s.edition.printed.empty()) return {};
  const auto best = order_of(s);
  std::vector<std::string> order;
  for (const auto i : best.plates) order.push_back(s.edition.order[i]);
  if (order == s.edition.order) return {};
  s.edition.order = std::move(order);
  return best.reason;
}

Registering::Registering(const session::Session& s, const Craft& craft, const PaperCase& paper,
                         const Damping& damping, unsigned seed)
    : printing_(printing_of(s, craft, paper, damping)),
      way_(s.edition.between == session::Between::held ? size::Way::held : size::Way::released),
      printed_(static_cast<int>(s.edition.printed.size())),
      today_(plates_today(s)),
      expected_(size::expected_sheet(paper.stock, {})) {
  const auto growths = size::growth_draws(static_cast<int>(paper.draws.size()), seed);
  for (const auto& draw : growths) {
    likely_.push_back(size::drawn_sheet(paper.stock, {}, draw));
    nips_.push_back(size::drawn_nip(printing_.nip, draw));
  }
  if (plates_meet(s) && today_.size() > 1) lag_ = size::max_lag(printing_, way_, followed);
  if (printed_ > 0) go_on(s.edition.first_pull, seed);
}

// Sheets that carry an image have been damp as they are today, other hands and another day apart,
// and have dried, held as that way of drying holds them.
void Registering::go_on(const std::optional<session::FirstPull>& told, unsigned seed) {
  const double held = size::restraint(printing_);
  const auto printed_and_dry = [&](const size::Sampled& s, size::SheetSize& sheet) {
    auto damp = size::at_first_pull(printing_, s);
    const auto image = size::growth_now(damp.size, damp.state);
    sheet = damp.size;
    const auto mean = method::sample_of(damp.state).mean;
    if (held > 0) size::dry_held(sheet, mean, units::Moisture(sheet.along.conditioned), held);
    return image;
  };
  image_ = printed_and_dry(size::expected(printing_), expected_);
  const auto share = [](units::Strain of, units::Strain in) {
    return in.parts_of_one() > 0 ? of.parts_of_one() / in.parts_of_one() : 1;
  };
  const double along = told ? share(told->along, image_.along) : 1;
  const double across = told ? share(told->across, image_.across) : 1;
  const auto as_told = [&](const size::Growth& g) {
    return size::Growth{units::Strain(g.along.parts_of_one() * along),
                        units::Strain(g.across.parts_of_one() * across)};
  };
  image_ = as_told(image_);
  auto printing = printing_;
  printing.samples = static_cast<int>(likely_.size());
  printing.seed = seed;
  auto sampled = size::sampled(printing);
  for (std::size_t k = 0; k < likely_.size(); ++k) {
    sampled[k].hands = sampled[k].hands_again;
    sampled[k].room = sampled[k].room_again;
    images_.push_back(as_told(printed_and_dry(sampled[k], likely_[k])));
  }
}

size::Growth Registering::image(int sample) const {
  return sample < 0 ? image_ : images_[static_cast<std::size_t>(sample)];
}

size::Growth Registering::growth(int sample, const method::State& state) const {
  auto sheet = sample < 0 ? expected_ : likely_[static_cast<std::size_t>(sample)];
  size::wet(sheet, units::Moisture(state.wetted_through));
  return size::growth_now(sheet, state);
}

size::RegisterCase Registering::register_case(const std::string& plate, const Pair& growths,
                                              units::Strain nip) const {
  const auto& p = *std::find_if(printing_.plates.begin(), printing_.plates.end(),
                                [&](const auto& one) { return one.name == plate; });
  // A sheet that comes back on another day is laid down anew.
  const bool anew = printed_ > 0 && !today_.empty() && plate == today_.front();
  auto c = size::case_of(printing_, anew ? size::Way::dried : way_, p, printing_.grain);
  c.first = growths.first;
  c.later = growths.later;
  c.nip_long = nip;
  return c;
}

Misfit Registering::misfit(const std::string& plate, int passes, const Pair& expected,
                           std::span<const Pair> likely) const {
  const auto nip = size::nip_stretch(passes, printing_.nip);
  const auto m = size::misfit(register_case(plate, expected, nip));
  double within = 0;
  for (std::size_t k = 0; k < likely.size(); ++k) {
    const auto one = register_case(plate, likely[k], size::nip_stretch(passes, nips_[k]));
    within += size::misfit(one).within.parts_of_one() / static_cast<double>(likely.size());
  }
  return {m.along, m.across, m.worst, likely.empty() ? m.within : units::Chance(within)};
}

std::optional<Duration> Registering::longest_between() const {
  return way_ == size::Way::released && today_.size() > 1 ? lag_.covered : std::nullopt;
}

std::string Registering::wait_sentence() const {
  if (printing_.plates.size() < 2 || today_.size() < 2) return {};
  const auto time = [](const std::optional<Duration>& t) {
    return t ? units::text(units::minutes(std::floor(units::in_minutes(*t))))
             : "more than " + units::text(followed);
  };
  const auto tail = " from its first pull before the next image falls outside " +
                    units::text(printing_.tolerance) + ", laying taken off";
  if (way_ == size::Way::held) {
    return "Held in the press and lifted open, a sheet may wait " + time(lag_.bench) + tail + ".";
  }
  return "Let go between plates, a sheet may wait " + time(lag_.covered) + " under cover, or " +
         time(lag_.bench) + " on the bench," + tail + ": keep it covered.";
}

}  // namespace dampline::planner
