#include <algorithm>
#include <cmath>

#include <dampline/method/pack.hpp>
#include <dampline/planner/damping_ways.hpp>
#include <dampline/units/text.hpp>

// Water laid on a sheet: sponged, misted, or shared out in a damp pack.
namespace dampline::planner {
namespace {

using units::in_si;

units::Grammage film_for(const PaperCase& paper, double mean) {
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const double now = method::sample_of(dry).mean.parts_of_one();
  return units::kilograms_per_m2(std::max(0.0, mean - now) * paper.sheet.porous->dry);
}

std::string whole_grams(const PaperCase& paper, units::Grammage film) {
  const double area = in_si(paper.sheet.width) * in_si(paper.sheet.height);
  return units::text(units::grams_per_m2(std::round(units::in_grams_per_m2(film)))) + ", " +
         units::text(units::grams(std::round(units::in_grams_per_m2(film) * area)));
}

Damping laid_on(const session::Session& session, const PaperCase& paper, bool mist) {
  Damping d;
  d.hold = hold_of(session);
  d.hold.arrangement = method::Arrangement::covered;
  const auto film = film_for(paper, paper.band.best.value.parts_of_one());
  d.wetting = mist ? method::mist_rest(film, units::seconds(0))
                   : method::sponge_rest(film, units::seconds(0));
  return d;
}

// One sheet in this many takes the water of all: as much as a sponge lays on two faces.
int sheets_to_a_wet_one(const PaperCase& paper, units::Grammage film) {
  const double both_faces = 2 * in_si(method::wet_not_dripping());
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const double room = 0.95 * paper.sheet.porous->saturation * paper.sheet.porous->dry -
                      method::water_si(dry, *paper.sheet.porous);
  return std::clamp(static_cast<int>(std::min(both_faces, room) / in_si(film)), 1, 5);
}

struct Evened {
  units::Moisture spread;         ///< of the sheets' means when the pack is opened
  units::Moisture after_an_hour;  ///< the same when it is turned over
};

Evened simulated(const PaperCase& paper, int sheets, int to_a_wet_one, units::Grammage film,
                 units::Duration rest) {
  const auto dry = method::conditioned(paper.sheet, paper.climate, method::pack_cells);
  auto wet = dry;
  wet.film_upper = wet.film_lower = 0.5 * to_a_wet_one * in_si(film);
  const auto order = method::order_of(sheets, 1, to_a_wet_one - 1, (to_a_wet_one - 1) / 2);
  method::PackOptions ends;
  ends.sample_every = units::seconds(0);
  const auto hour = method::leave_packed(paper.sheet, method::pack_of(order, dry, wet),
                                         units::hours(1), paper.climate, ends);
  const auto end = method::leave_packed(paper.sheet, method::restacked(hour.end),
                                        rest - units::hours(1), paper.climate, ends);
  return {end.moments.back().spread(), hour.moments.back().spread()};
}

}  // namespace

Damping water_laid_on(const session::Session& session, const PaperCase& paper, bool mist) {
  Damping d = laid_on(session, paper, mist);
  const auto film = film_for(paper, paper.band.best.value.parts_of_one());
  d.summary.push_back(std::string(mist ? "Mist both faces" : "Sponge one face") + " with " +
                      whole_grams(paper, film) +
                      " of water for each sheet, and stack under plastic.");
  set_evening(d, session, paper);
  set_forecast(d, session, paper, paper.least_rest);
  return d;
}

Damping packed(const session::Session& session, const PaperCase& paper) {
  Damping d = laid_on(session, paper, false);
  const auto film = film_for(paper, paper.band.best.value.parts_of_one());
  const int each = sheets_to_a_wet_one(paper, film);
  if (each == 1) {
    d.summary.push_back("Sponge every sheet with " + whole_grams(paper, film) +
                        " of water, and stack under plastic.");
  } else {
    static constexpr const char* nth[] = {"", "", "second", "third", "fourth", "fifth"};
    d.summary.push_back(std::string("Sponge every ") + nth[each] + " sheet on both faces with " +
                        whole_grams(paper, film * static_cast<double>(each)) +
                        " of water: the share of its " +
                        (each == 2 ? "dry neighbour" : "dry neighbours") +
                        " is in it. Lay dry ones between, stack under plastic; after an hour cut "
                        "the pack and turn its halves over.");
  }
  set_evening(d, session, paper);
  set_forecast(d, session, paper, paper.least_pack);
  if (each > 1 && d.ready) {
    const int sheets = std::clamp(session.paper.sheets, 2 * each, 24);
    const auto rest = units::seconds(d.treatment.opens.count() * 30.0);
    const auto evened = simulated(paper, sheets, each, film, rest);
    d.summary.push_back("By the model its sheets differ by " + units::text(evened.after_an_hour) +
                        " after the hour and by " + units::text(evened.spread) + " after " +
                        minutes_text(rest) + ".");
    if (evened.spread > paper.band.spread.value) {
      d.warnings.push_back({"pack-uneven",
                            "the sheets of the pack still differ by " + units::text(evened.spread) +
                                " when it is opened",
                            "lay it the evening before: when = \"evening before\", or a longer "
                            "rest under [damping]"});
    }
  }
  return d;
}

}  // namespace dampline::planner
