#include <algorithm>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/session/judge.hpp>
#include <dampline/session/read.hpp>
#include <dampline/session/section.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/out_of_range.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {
namespace {

std::string iso_date(std::chrono::year_month_day d) {
  const auto two = [](unsigned n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::to_string(static_cast<int>(d.year())) + "-" + two(static_cast<unsigned>(d.month())) +
         "-" + two(static_cast<unsigned>(d.day()));
}

bool by_place(const InputError& a, const InputError& b) {
  return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
}

struct Reader {
  Findings findings;
  Session s{};
  Places places{};
  const Here& here;

  void day(Section day);
  void date_and_zone(Section& day);
  void studio(Section studio);
  void readings(Section& studio);
  void humidity(Section& studio, bool temperature_known);
  void people(Section& top);
  /// From and until of a person or press that is not there all day.
  template <class Thing>
  static void hours(Section& each, Thing& thing, std::vector<HoursPlaces>& places) {
    each.maybe("from", thing.from);
    each.maybe("until", thing.until);
    places.push_back({each.where("from"), each.where("until")});
  }
  void equipment(Section equipment);
  void paper(Section paper);
  void damping(Section damping);
  void plates(Section& top);
  void edition(Section edition);
  void registering(Section registering);
  /// Two plates print on one sheet; else register does not matter.
  [[nodiscard]] bool plates_meet() const { return s.plates.size() > 1 && !s.edition.sheet_each; }
};

void Reader::date_and_zone(Section& day) {
  if (!day.date("date", s.day.date) && !day.has("date")) {
    if (here.today) {
      s.day.date = *here.today;
      day.note_default("date", iso_date(*here.today) + " (today)");
    } else {
      findings.error(day.where(), "day.date is missing", "add: date = 2026-03-14");
    }
  }
  places.zone = day.where("zone");
  if (!day.text("zone", s.day.zone)) {
    if (day.has("zone")) return;
    s.day.zone = here.zone;
    day.note_default("zone", here.zone);
  } else if (!is_zone(s.day.zone)) {
    const auto near = nearest_zone(s.day.zone);
    findings.error(places.zone, "day.zone: \"" + s.day.zone + "\" is no time zone that is known",
                   (near ? "did you mean \"" + *near + "\"? " : "") +
                       "Zones are named by continent and city, like \"Europe/Lisbon\"");
    s.day.zone.clear();
  }
}

void Reader::day(Section day) {
  date_and_zone(day);
  const bool from = day.clock("from", s.day.from);
  const bool until = day.clock("until", s.day.until);
  places.hours_known = from && until;
  places.from = day.where("from");
  places.until = day.where("until");
  for (auto& each : day.each("breaks")) {
    Break b;
    const bool at = each.clock("at", b.at);
    const bool length = each.quantity("for", b.length);
    if (!at || !length) continue;
    s.day.breaks.push_back(b);
    places.breaks.push_back(each.where("at"));
  }
  if (!day.has("rests")) return;
  auto rests = day.inside("rests");
  Rests r;
  const bool every = rests.quantity("every", r.every);
  if (rests.quantity("for", r.length) && every) s.day.rests = r;
}

void Reader::humidity(Section& studio, bool temperature_known) {
  auto& st = s.studio;
  studio.maybe("wet_bulb", st.wet_bulb);
  studio.maybe("dew_point", st.dew_point);
  int given = 0;
  Place last;
  for (const char* name : {"humidity", "wet_bulb", "dew_point", "readings"}) {
    if (!studio.has(name)) continue;
    ++given;
    const auto where = studio.where(name);
    if (std::pair(where.line, where.column) > std::pair(last.line, last.column)) last = where;
  }
  if (given > 1) {
    findings.error(last, "the damp of the air is given more than once",
                   "keep one of humidity, wet_bulb, dew_point and readings");
  }
  if (studio.has("readings") && given == 1) return;
  if (studio.has("humidity") || given == 0) {
    studio.quantity("humidity", st.humidity);
    return;
  }
  if (given > 1 || !temperature_known || (!st.wet_bulb && !st.dew_point)) return;
  const air::Reading reading{
      .temperature = st.temperature, .wet_bulb = st.wet_bulb, .dew_point = st.dew_point};
  try {
    st.humidity = air::state_from(reading, air::standard_atmosphere(st.altitude)).humidity;
  } catch (const units::OutOfRange&) {
    const char* name = st.wet_bulb ? "wet_bulb" : "dew_point";
    findings.error(
        studio.where(name),
        "studio." + std::string(name) + " cannot be with air of " + units::text(st.temperature),
        st.wet_bulb ? "a wet bulb lies below the temperature, and not so far below that "
                      "the air would be drier than dry"
                    : "a dew point lies below the temperature");
  }
}

void Reader::readings(Section& studio) {
  auto& st = s.studio;
  studio.maybe("readings", st.readings);
  st.where_readings = studio.where("readings");
  st.readings_zone = s.day.zone;
  if (studio.has("readings_zone") && studio.text("readings_zone", st.readings_zone)) {
    const auto where = studio.where("readings_zone");
    if (!is_zone(st.readings_zone)) {
      findings.error(
          where, "studio.readings_zone: \"" + st.readings_zone + "\" is no time zone that is known",
          "zones are named by continent and city, like \"Europe/Lisbon\"; \"UTC\" is one too");
    } else if (!st.readings) {
      findings.warning(where, "studio.readings_zone says nothing without readings",
                       "add: readings = \"hygrometer.csv\", or delete it");
    }
  }
  if (st.readings && studio.has("temperature")) {
    findings.warning(studio.where("temperature"),
                     "studio.temperature is not used: the readings have their own",
                     "delete it, or keep it in place of the readings with a humidity");
  }
}

void Reader::studio(Section studio) {
  readings(studio);
  const bool from_log = studio.has("readings") && !studio.has("temperature");
  const bool temperature = !from_log && studio.quantity("temperature", s.studio.temperature);
  const bool altitude = studio.quantity("altitude", s.studio.altitude);
  humidity(studio, temperature && altitude);
  studio.choice("air", s.studio.air);
}

void Reader::people(Section& top) {
  for (auto& each : top.each("people")) {
    Person p;
    each.text("name", p.name);
    std::vector<std::size_t> roles;
    if (each.words("does", roles)) {
      p.inks = std::find(roles.begin(), roles.end(), 0U) != roles.end();
      p.handles_paper = std::find(roles.begin(), roles.end(), 1U) != roles.end();
    }
    each.number("pace", p.pace);
    each.truth("learner", p.learner);
    if (p.learner && each.has("pace")) {
      findings.error(each.where("learner"), "a pace and learner say the same thing twice",
                     "keep the pace, or delete it to take that of a learner");
    }
    hours(each, p, places.person_hours);
    s.people.push_back(p);
    places.people.push_back(each.has("name") ? each.where("name") : each.where());
  }
}

void Reader::equipment(Section equipment) {
  auto& e = s.equipment;
  for (auto& each : equipment.each("presses")) {
    Press p;
    each.text("name", p.name);
    each.maybe("bed", p.bed);
    each.maybe("blankets", p.blankets);
    each.maybe("square_after", p.square_after);
    hours(each, p, places.press_hours);
    p.where = each.has("name") ? each.where("name") : each.where();
    e.presses.push_back(p);
  }
  auto tub = equipment.inside("tub");
  Tub t;
  const bool sheets = tub.whole("sheets", t.sheets);
  if (sheets && t.sheets == 0) {
    tub.has("water") && tub.quantity("water", t.water);
  } else {
    tub.quantity("water", t.water);
    tub.maybe("size", t.size);
    e.tub = t;
  }
  places.tub_size = tub.where("size");
  equipment.whole("blotters", e.blotters);
  equipment.maybe("blotter", e.blotter);
  places.blotter = equipment.where("blotter");
  equipment.truth("hot_plate", e.hot_plate);
  auto drying = equipment.inside("drying");
  drying.choice("method", e.drying);
  drying.maybe("places", e.drying_places);
  places.drying_places = drying.where("places");
  drying.maybe("size", e.drying_size);
  places.drying_size = drying.where("size");
}

void Reader::paper(Section paper) {
  auto& p = s.paper;
  p.where = paper.where();
  if (!paper.present()) return;
  paper.text("stock", p.stock);
  p.where_stock = paper.where("stock");
  paper.maybe("grammage", p.grammage);
  if (!paper.has("stock") && !paper.has("grammage")) {
    findings.error(p.where, "the paper is neither named nor described",
                   "add: stock = \"mould-made cotton, internal size, 300 g/m2\" (dampline papers "
                   "lists the names), or: grammage = \"300 g/m2\"");
  }
  paper.maybe("thickness", p.thickness);
  paper.maybe("cobb", p.cobb);
  for (const auto& [name, to] : {std::pair("furnish", &p.furnish), std::pair("making", &p.making),
                                 std::pair("sizing", &p.sizing)}) {
    std::size_t position = 0;
    if (paper.word(name, position)) {
      *to = std::string(find_key("paper." + std::string(name))->words[position]);
    }
  }
  paper.quantity("sheet", p.sheet);
  places.sheet = paper.where("sheet");
  paper.choice("grain", p.grain);
  paper.whole("sheets", p.sheets);
  places.sheets = paper.where("sheets");
}

void Reader::damping(Section damping) {
  auto& d = s.damping;
  d.where = damping.where();
  d.where_method = damping.where("method");
  damping.text("method", d.method);
  places.method = damping.where("method");
  damping.choice("hold", d.hold);
  places.hold = damping.where("hold");
  damping.maybe("soak", d.soak);
  damping.maybe("rest", d.rest);
  damping.truth("evening_before", d.evening_before);
}

void Reader::plates(Section& top) {
  for (auto& each : top.each("plates")) {
    Plate p;
    p.where = each.has("name") ? each.where("name") : each.where();
    each.text("name", p.name);
    each.quantity("size", p.size);
    each.text("process", p.process);
    p.where_process = each.where("process");
    each.text("ink", p.ink);
    p.where_ink = each.where("ink");
    each.whole("copies", p.copies);
    each.names("extras", p.extras, p.where_extras);
    each.maybe("press", p.press);
    each.maybe("printer", p.printer);
    each.durations("times", p.times, p.where_times);
    s.plates.push_back(p);
    places.plate_sizes.push_back(each.where("size"));
    places.plate_presses.push_back(each.where("press"));
    places.plate_printers.push_back(each.where("printer"));
  }
}

void Reader::edition(Section edition) {
  auto& e = s.edition;
  e.where = edition.where();
  if (!edition.present()) return;
  edition.whole("prints", e.prints);
  edition.whole("proofs", e.proofs);
  e.order_given = edition.has("order");
  places.order_known = edition.names("order", e.order, places.order) || !e.order_given;
  places.order_whole = edition.where("order");
  places.printed_known = edition.names("printed", e.printed, places.printed);
  if (!e.order_given) {
    e.order = e.printed;  // they have been first
    for (const auto& plate : s.plates) {
      const bool before =
          std::find(e.printed.begin(), e.printed.end(), plate.name) != e.printed.end();
      if (!before) e.order.push_back(plate.name);
    }
  }
  if (auto first = edition.inside("first_pull"); first.present()) {
    FirstPull at;
    const bool along = first.quantity("along", at.along);
    const bool across = first.quantity("across", at.across);
    if (along && across) e.first_pull = at;
    places.first_pull = first.where();
  }
  edition.truth("sheet_each", e.sheet_each);
  if (!plates_meet()) edition.list_no_defaults();
  edition.choice("between", e.between);
}

void Reader::registering(Section r) {
  if (!plates_meet()) r.list_no_defaults();
  r.quantity("tolerance", s.registering.tolerance);
  r.choice("locate", s.registering.locate);
  r.quantity("placing", s.registering.placing);
}

}  // namespace

std::variant<Session, InputErrors> read(std::string_view text, std::string_view file,
                                        const Here& here) {
  auto document = parse_document(text, file);
  if (const auto* error = std::get_if<InputError>(&document)) return InputErrors{*error};
  const auto& value = std::get<Value>(document);
  if (value.members.empty()) {
    return InputErrors{at(file, text, {},
                          "nothing in it: a session needs [paper], [[plates]] and [edition]",
                          "dampline new writes a session to edit")};
  }
  Reader r{.findings = Findings(text, file), .here = here};
  Section top(r.findings, value);
  r.s.file = std::string(file);
  r.s.text = std::string(text);
  top.text("title", r.s.title);
  r.day(top.inside("day"));
  r.studio(top.inside("studio"));
  r.people(top);
  r.equipment(top.inside("equipment"));
  r.paper(top.inside("paper"));
  r.damping(top.inside("damping"));
  r.plates(top);
  r.edition(top.inside("edition"));
  r.registering(top.inside("register"));
  judge(r.s, r.places, r.findings);
  std::stable_sort(r.findings.errors.begin(), r.findings.errors.end(), by_place);
  if (!r.findings.errors.empty()) return std::move(r.findings.errors);
  std::stable_sort(r.findings.warnings.begin(), r.findings.warnings.end(), by_place);
  r.s.warnings = std::move(r.findings.warnings);
  r.s.defaults_used = std::move(r.findings.defaults);
  return std::move(r.s);
}

}  // namespace dampline::session
