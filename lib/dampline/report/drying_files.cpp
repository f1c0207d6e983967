#include <dampline/report/characters.hpp>
#include <dampline/report/drying.hpp>
#include <dampline/report/json.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

std::string drying_json(const planner::DryingCalendar& c, const Clock& clock) {
  JsonWriter json;
  const auto time = [&](std::string_view name, std::optional<Instant> at) {
    json.member(name, at ? std::optional(rfc3339(clock, *at)) : std::nullopt);
  };
  const auto share = [&](std::string_view name, const std::optional<units::Moisture>& m) {
    json.member(name, m ? std::optional(m->parts_of_one()) : std::nullopt);
  };
  json.begin_object();
  json.member("format", "dampline-dry").member("version", 1);
  json.member("title", c.title).member("zone", c.zone);
  time("finished", c.finished);
  json.member("prints", c.prints).member("method", c.way).member("samples", c.samples);
  json.key("moisture_g_g").begin_object(Layout::row);
  json.member("start", c.wet.parts_of_one()).member("start_low", c.wet_low.parts_of_one());
  json.member("start_high", c.wet_high.parts_of_one()).member("room", c.room.parts_of_one());
  json.end_object();
  json.member("blotters_a_change", c.blotters_a_change);
  json.key("dates").begin_array();
  for (const auto& d : c.dates) {
    json.begin_object().member("kind", d.kind);
    time("at", d.at);
    time("due", d.due);
    time("early", d.early);
    time("late", d.late);
    json.member("open_ended", d.is_open).member("what", d.what).member("basis", d.basis);
    share("print_g_g", d.print);
    share("blotter_g_g", d.blotter);
    json.end_object();
  }
  json.end_array().member("notes", c.notes).end_object();
  return json.take();
}

Calendar drying_events(const planner::DryingCalendar& c, const Clock& clock, Instant revised) {
  constexpr std::chrono::minutes look(15);
  Calendar out{
      .title = c.title, .identity = c.title + "\n" + c.day, .revised = revised, .events = {}};
  for (const auto& d : c.dates) {
    std::string text = "Basis: " + d.basis + ".";
    if (d.early && d.late) {
      text += "\nEight of ten between " + short_date_text(clock, *d.early) + ", " +
              clock_text(clock, *d.early) + " and " + short_date_text(clock, *d.late) + ", " +
              clock_text(clock, *d.late) + ".";
    }
    if (d.due != d.at) {
      text += "\nDue " + short_date_text(clock, d.due) + ", " + clock_text(clock, d.due) +
              "; put off to the morning.";
    }
    if (d.print) {
      text += "\nPrints by the model at " + units::text(*d.print) + ", the blotters taken out " +
              units::text(*d.blotter) + ".";
    }
    text +=
        "\nOf " + clean(c.title) + ". Times in this text are the studio's (" + clean(c.zone) + ").";
    std::string what = d.what;
    if (!what.empty() && what[0] >= 'a' && what[0] <= 'z')
      what[0] = static_cast<char>(what[0] - 32);
    // Paper dries by itself, at night too: no alarm.
    const bool wakes = d.kind != "dry";
    out.events.push_back({d.key, d.at, d.at + look, what, text,
                          wakes ? std::optional(std::chrono::minutes(0)) : std::nullopt});
  }
  return out;
}

}  // namespace dampline::report
