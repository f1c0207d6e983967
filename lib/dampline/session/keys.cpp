#include <array>

#include <dampline/session/keys.hpp>

namespace dampline::session {
namespace {

using Words = std::span<const std::string_view>;

// Enumerations stand in the order of their enum, where they have one.
constexpr std::array<std::string_view, 3> air{"still", "ordinary", "fan"};
constexpr std::array<std::string_view, 2> roles{"ink", "paper"};
constexpr std::array<std::string_view, 4> drying{"boards", "rack", "tape", "line"};
constexpr std::array<std::string_view, 6> furnish{"cotton", "rag",  "kozo",
                                                  "gampi",  "wood", "mixed"};
constexpr std::array<std::string_view, 3> making{"hand", "mould", "machine"};
constexpr std::array<std::string_view, 5> sizing{"waterleaf", "soft", "internal", "hard", "tub"};
constexpr std::array<std::string_view, 4> grain{"long", "short", "none", "unknown"};
constexpr std::array<std::string_view, 3> hold{"covered", "tub", "bench"};
constexpr std::array<std::string_view, 3> between{"held", "released", "dried"};
constexpr std::array<std::string_view, 4> locate{"corner", "edge", "centre", "pins"};

// A row of the table, built so that it reads as one.
struct Row : Key {
  [[nodiscard]] Row range(std::string_view from, std::string_view to) const {
    Row r = *this;
    r.low = from;
    r.high = to;
    return r;
  }
  [[nodiscard]] Row in_starter() const {
    Row r = *this;
    r.shown = true;
    return r;
  }
  [[nodiscard]] Row of(Words all) const {
    Row r = *this;
    r.words = all;
    return r;
  }
};

Row row(std::string_view path, Form form, Need need, std::string_view fallback,
        std::string_view example, std::string_view meaning) {
  return {{path, form, need, fallback, {}, {}, {}, example, meaning, false}};
}

Row needed(std::string_view path, Form form, std::string_view example, std::string_view meaning) {
  return row(path, form, Need::required, {}, example, meaning);
}

Row usual(std::string_view path, Form form, std::string_view fallback, std::string_view example,
          std::string_view meaning) {
  return row(path, form, Need::fallback, fallback, example, meaning);
}

Row may(std::string_view path, Form form, std::string_view without, std::string_view example,
        std::string_view meaning) {
  return row(path, form, Need::optional, without, example, meaning);
}

// Defaults: tub of 10 sheets at 18 degC, 20 blotters, tolerance 0.5 mm, two proofs: common
// practice, no published source. Placing error, room and altitude: assumed.
std::vector<Key> made() {
  using enum Form;
  return {
      usual("title", text, "\"A printing day\"", "\"Salt marsh\"",
            "what the day is called on every page"),

      may("day", table, "the defaults below", {}, "when the studio is yours"),
      may("day.date", date, "the day it is", "2026-03-14",
          "the day: year-month-day, without quotes"),
      usual("day.from", clock, "\"09:30\"", "\"09:30\"", "the studio is yours from, in 24 hours"),
      usual("day.until", clock, "\"17:30\"", "\"17:30\"", "cleaned up and out by"),
      may("day.zone", zone, "the zone of the computer", "\"Europe/Lisbon\"",
          "time zone, by its name in the IANA database"),
      may("day.breaks", tables, "none", "[{ at = \"13:00\", for = \"40 min\" }]",
          "when nobody works; what soaks or rests goes on")
          .range("1", "20")
          .in_starter(),
      needed("day.breaks[].at", clock, "\"13:00\"", "the break begins"),
      needed("day.breaks[].for", duration, "\"40 min\"", "how long it lasts")
          .range("1 min", "12 h"),
      may("day.rests", table, "none", {}, "a short rest for each pair of hands, again and again"),
      usual("day.rests.every", duration, "\"60 min\"", "\"60 min\"",
            "the longest anybody works without a rest or a break")
          .range("20 min", "4 h"),
      usual("day.rests.for", duration, "\"5 min\"", "\"5 min\"", "how long a rest lasts")
          .range("1 min", "1 h"),

      may("studio", table, "the defaults below", {}, "the air of the room"),
      usual("studio.temperature", temperature, "\"20 degC\"", "\"17 degC\"",
            "temperature by the bench")
          .range("1 degC", "45 degC"),
      usual("studio.humidity", humidity, "\"50 %\"", "\"52 %\"",
            "relative humidity by the bench; or give wet_bulb or dew_point")
          .range("0 %", "100 %"),
      may("studio.wet_bulb", temperature, "humidity", "\"12 degC\"",
          "wet bulb of a sling hygrometer, instead of humidity")
          .range("-10 degC", "45 degC"),
      may("studio.dew_point", temperature, "humidity", "\"7 degC\"",
          "dew point, instead of humidity")
          .range("-35 degC", "45 degC"),
      may("studio.readings", text, "one reading for the day", "\"hygrometer.csv\"",
          "a hygrometer's log (CSV) beside this file, instead of temperature and humidity; columns "
          "of time, temperature and humidity are found by their names"),
      may("studio.readings_zone", zone, "that of the day", "\"UTC\"",
          "time zone of the log's times, where they are written without one"),
      usual("studio.air", word, "\"ordinary\"", "\"still\"",
            "how the air moves (still: doors shut, nobody walking)")
          .of(air),
      usual("studio.altitude", length, "\"0 m\"", "\"90 m\"",
            "height above the sea, for the air pressure")
          .range("0 m", "5000 m"),

      usual("people", tables, "[{ name = \"printer\" }]",
            "[{ name = \"A\", does = [\"ink\", \"paper\"] }]", "who works; [[people]] for each")
          .range("1", "50"),
      needed("people[].name", text, "\"A\"", "a name or initial"),
      may("people[].does", words, "both", "[\"ink\", \"paper\"]",
          "inky hands (ink), clean hands (paper)")
          .in_starter()
          .of(roles),
      may("people[].pace", number, "1", "1.7",
          "time taken over typical: about 1.7 when learning, 0.65 when practised")
          .range("0.3", "5"),
      may("people[].learner", truth, "false", "false",
          "a first session at the press: the pace of a learner, as in steps.toml"),
      may("people[].from", clock, "the whole day", "\"10:00\"", "there from, if not all day"),
      may("people[].until", clock, "the whole day", "\"15:00\"", "there until, if not all day"),

      may("equipment", table, "the defaults below", {}, "what the studio has"),
      usual("equipment.presses", tables, "[{ name = \"press\" }]",
            "[{ name = \"table press\", bed = \"50 x 90 cm\" }]", "the presses")
          .range("1", "20"),
      needed("equipment.presses[].name", text, "\"table press\"", "what it is called"),
      may("equipment.presses[].bed", size, "not stated, the fit is not checked", "\"50 x 90 cm\"",
          "the bed, within the blankets")
          .range("5 cm", "5 m")
          .in_starter(),
      may("equipment.presses[].blankets", size, "as large as the bed", "\"45 x 80 cm\"",
          "the blankets")
          .range("5 cm", "5 m"),
      may("equipment.presses[].square_after", whole, "they stay square", "6",
          "pulls after which the blankets have crept and are squared again")
          .range("1", "1000"),
      may("equipment.presses[].from", clock, "the whole day", "\"10:00\"",
          "yours from, as when it is hired"),
      may("equipment.presses[].until", clock, "the whole day", "\"13:00\"",
          "cleaned and given back by"),

      may("equipment.tub", table, "the defaults below", {}, "the tub").in_starter(),
      usual("equipment.tub.sheets", whole, "10", "8", "sheets it takes at once; 0: there is no tub")
          .range("0", "500"),
      usual("equipment.tub.water", temperature, "\"18 degC\"", "\"18 degC\"",
            "temperature of the water")
          .range("1 degC", "60 degC"),
      may("equipment.tub.size", size, "not stated, the fit is not checked", "\"50 x 70 cm\"",
          "inside, so that a sheet lies flat")
          .range("5 cm", "3 m"),
      usual("equipment.blotters", whole, "20", "20", "dry blotters at hand").range("0", "2000"),
      may("equipment.blotter", size, "not stated, the fit is not checked", "\"50 x 70 cm\"",
          "size of a blotter")
          .range("5 cm", "3 m"),
      usual("equipment.hot_plate", truth, "true", "true",
            "there is a hot plate for plates and ink"),

      may("equipment.drying", table, "the defaults below", {}, "where wet prints go").in_starter(),
      usual("equipment.drying.method", word, "\"boards\"", "\"boards\"",
            "how they dry (boards: between blotters and boards)")
          .of(drying),
      may("equipment.drying.places", whole, "not stated, no limit is planned", "16",
          "prints that can lie or hang at once")
          .range("1", "5000")
          .in_starter(),
      may("equipment.drying.size", size, "not stated, the fit is not checked", "\"50 x 70 cm\"",
          "of a board or a shelf of the rack")
          .range("5 cm", "3 m"),

      needed("paper", table, {}, "the sheets"),
      may("paper.stock", text, "the paper is described by its grammage",
          "\"mould-made cotton, internal size, 300 g/m2\"", "a name that dampline papers lists")
          .in_starter(),
      may("paper.grammage", grammage, "that of the stock", "\"300 g/m2\"",
          "weight of the sheet, if it is no known stock or differs from it")
          .range("8 g/m2", "1500 g/m2"),
      may("paper.thickness", length, "that of the stock", "\"0.55 mm\"", "dry thickness, likewise")
          .range("0.01 mm", "5 mm"),
      may("paper.cobb", grammage, "that of the stock", "\"60 g/m2\"",
          "water taken up by one side in 60 s (ISO 535), likewise")
          .range("1 g/m2", "2000 g/m2"),
      may("paper.furnish", word, "that of the stock", "\"cotton\"", "the fibre, likewise")
          .of(furnish),
      may("paper.making", word, "that of the stock", "\"mould\"",
          "how the sheet is formed, likewise")
          .of(making),
      may("paper.sizing", word, "that of the stock", "\"internal\"",
          "how the sheet is sized, likewise")
          .of(sizing),
      needed("paper.sheet", size, "\"38 x 56 cm\"", "the sheet as you print it, both sides")
          .range("3 cm", "3 m"),
      usual("paper.grain", word, "\"unknown\"", "\"long\"", "the side along which the fibres lie")
          .of(grain),
      may("paper.sheets", whole, "as many as the edition needs", "14", "sheets at hand")
          .range("1", "2000")
          .in_starter(),

      may("damping", table, "the defaults below", {}, "how the sheets are damped"),
      may("damping.method", text, "chosen for the paper", "\"soak\"",
          "soak, sponge, mist, pack, or one of your own"),
      usual("damping.hold", word, "\"covered\"", "\"covered\"",
            "where damp sheets wait (covered: a stack under plastic)")
          .of(hold),
      may("damping.soak", duration, "chosen for the paper", "\"30 min\"", "time in the water")
          .range("10 s", "48 h"),
      may("damping.rest", duration, "chosen for the paper", "\"30 min\"",
          "time under cover between blotting and the first pull")
          .range("1 min", "7 days"),
      may("damping.evening_before", truth, "false", "false",
          "the sheets are damped and packed the evening before"),

      needed("plates", tables, {}, "the plates or blocks; [[plates]] for each").range("1", "20"),
      needed("plates[].name", text, "\"key\"", "what it is called"),
      needed("plates[].size", size, "\"20 x 30 cm\"", "both sides").range("1 cm", "2 m"),
      needed("plates[].process", text, "\"etching\"",
             "etching, aquatint, drypoint, relief, monotype and more, as in processes.toml"),
      usual("plates[].ink", text, "\"oil\"", "\"oil\"",
            "oil, oil with drier, water-washable, water-based and more, as in steps.toml"),
      may("plates[].copies", whole, "1", "1", "like plates that are inked in turn")
          .range("1", "20"),
      may("plates[].press", text, "any press", "\"table press\"", "printed on this press only"),
      may("plates[].printer", text, "anybody who inks", "\"A\"", "printed by this person only"),
      may("plates[].extras", names, "none", "[\"chine colle\"]",
          "what is done besides at every pull: chine colle, roll over, two colours, as in "
          "steps.toml"),
      may("plates[].times", durations, "typical times for the size of the plate",
          "{ wipe = \"14 min\" }", "your own times by step, such as warm, ink, wipe and pull")
          .range("1 s", "24 h"),

      needed("edition", table, {}, "what is to be pulled"),
      needed("edition.prints", whole, "10", "good prints wanted").range("1", "1000"),
      usual("edition.proofs", whole, "2", "2", "proofs pulled before them, to working standard")
          .range("0", "100"),
      may("edition.order", names, "the plates as they stand in the file", "[\"key\"]",
          "the order in which the plates are printed"),
      usual("edition.between", word, "\"held\"", "\"held\"",
            "what the sheet does between plates (dried: dried, then damped again)")
          .of(between),
      may("edition.printed", names, "fresh sheets", "[]",
          "plates that are on the sheets already, from days before, as in [\"tone\"]: the sheets "
          "are damped again and the next plate is printed"),
      may("edition.first_pull", table, "as large as a fresh sheet is in this damp",
          "{ along = \"0.83 %\", across = \"1.39 %\" }",
          "how much larger than new the sheet was at its first pull, as the plan of that day says"),
      needed("edition.first_pull.along", strain, "\"0.83 %\"", "along the grain")
          .range("0 %", "10 %"),
      needed("edition.first_pull.across", strain, "\"1.39 %\"", "across the grain")
          .range("0 %", "10 %"),
      may("edition.sheet_each", truth, "false", "false",
          "true: every plate is an edition of its own on sheets of its own, as in a class"),

      may("register", table, "the defaults below", {}, "how well the plates must meet"),
      usual("register.tolerance", length, "\"0.5 mm\"", "\"0.4 mm\"",
            "misfit you would still let pass")
          .range("0.01 mm", "20 mm"),
      usual("register.locate", word, "\"corner\"", "\"corner\"", "what the sheet is laid to")
          .of(locate),
      usual("register.placing", length, "\"0.2 mm\"", "\"0.2 mm\"",
            "how far off a sheet is usually laid")
          .range("0 mm", "10 mm"),
  };
}

std::string_view noun(Form form) {
  switch (form) {
    case Form::whole:
      return "a whole number";
    case Form::number:
      return "a number";
    case Form::truth:
      return "true or false";
    case Form::word:
      return "a word in quotes";
    case Form::words:
      return "a list of words";
    case Form::names:
      return "a list of names in quotes";
    case Form::date:
      return "a date";
    case Form::clock:
      return "a clock time";
    case Form::zone:
      return "a time zone in quotes";
    case Form::length:
      return "a length with its unit in quotes";
    case Form::size:
      return "a size with its unit in quotes";
    case Form::duration:
      return "a duration with its unit in quotes";
    case Form::temperature:
      return "a temperature with its unit in quotes";
    case Form::humidity:
      return "a humidity in quotes";
    case Form::grammage:
      return "a grammage with its unit in quotes";
    case Form::strain:
      return "a growth in per cent, in quotes";
    case Form::table:
    case Form::durations:
      return "a table";
    case Form::tables:
      return "a list of tables";
    case Form::text:
      break;
  }
  return "text in quotes";
}

}  // namespace

std::span<const Key> keys() {
  static const std::vector<Key> all = made();
  return all;
}

const Key* find_key(std::string_view path) {
  for (const auto& key : keys()) {
    if (key.path == path) return &key;
  }
  return nullptr;
}

std::vector<std::string> names_inside(std::string_view table_path) {
  const auto prefix = table_path.empty() ? "" : std::string(table_path) + ".";
  std::vector<std::string> out;
  for (const auto& key : keys()) {
    if (!key.path.starts_with(prefix)) continue;
    const auto rest = key.path.substr(prefix.size());
    if (rest.find_first_of(".[") == std::string_view::npos) out.emplace_back(rest);
  }
  return out;
}

std::string expected(const Key& key) { return std::string(noun(key.form)); }

}  // namespace dampline::session
