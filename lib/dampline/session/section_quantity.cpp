#include <dampline/session/section.hpp>
#include <dampline/session/wording.hpp>

// Quantities with their units and ranges.
namespace dampline::session {
namespace {

// "300" for a key whose example is "300 g/m2": the number with that unit.
std::string with_unit(const Value& v, const Key& key) {
  const auto example = unquoted(key.example);
  const auto space = example.find_last_of("0123456789");
  return quoted(number_text(v) +
                example.substr(space + 1 == example.size()
                                   ? example.find(' ')
                                   : example.find(' ', example.find_first_of("0123456789"))));
}

}  // namespace

template <class Quantity, class Parse, class InSi>
bool Section::measured(std::string_view name, Quantity& to, Parse parse, InSi within) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  if (is_number(*v)) {
    const auto wants = expected(k);
    const auto noun = wants.substr(0, wants.find(" with"));
    const auto fix = k.form == Form::size ? std::string(k.example) : with_unit(*v, k);
    findings_->error(v->where,
                     called(name) + ": bare number for " + noun.substr(0, noun.find(" in quotes")),
                     "write a unit: " + std::string(name) + " = " + fix);
    return false;
  }
  if (v->kind != Kind::text) return wrong_kind(name, *v, "");
  const auto parsed = parse(v->text);
  if (!units::ok(parsed)) return refuse(name, *v, std::get<units::Refusal>(parsed));
  const auto& found = std::get<Quantity>(parsed);
  if (!within(found, k)) {
    const auto range = std::string(k.low) + " to " + std::string(k.high);
    findings_->error(v->where, called(name) + " is " + v->text + ", outside " + range,
                     "give a value from " + range + ", like " + std::string(k.example));
    return false;
  }
  to = found;
  return true;
}

namespace {

template <class Quantity, class Parse>
auto within_range(Parse parse) {
  return [parse](const Quantity& q, const Key& k) {
    // The bounds and the value come through the same reader, so equal texts are equal numbers.
    const auto low = std::get<Quantity>(parse(k.low));
    const auto high = std::get<Quantity>(parse(k.high));
    return low <= q && q <= high;
  };
}

}  // namespace

bool Section::quantity(std::string_view name, units::Length& to) {
  return measured(name, to, units::parse_length, within_range<units::Length>(units::parse_length));
}

bool Section::quantity(std::string_view name, units::Size& to) {
  const auto within = [](const units::Size& s, const Key& k) {
    const auto in_range = within_range<units::Length>(units::parse_length);
    return in_range(s.width, k) && in_range(s.height, k);
  };
  return measured(name, to, units::parse_size, within);
}

bool Section::quantity(std::string_view name, units::Duration& to) {
  return measured(name, to, units::parse_duration,
                  within_range<units::Duration>(units::parse_duration));
}

bool Section::quantity(std::string_view name, units::Temperature& to) {
  return measured(name, to, units::parse_temperature,
                  within_range<units::Temperature>(units::parse_temperature));
}

bool Section::quantity(std::string_view name, units::RelativeHumidity& to) {
  return measured(name, to, units::parse_humidity,
                  within_range<units::RelativeHumidity>(units::parse_humidity));
}

bool Section::quantity(std::string_view name, units::Grammage& to) {
  return measured(name, to, units::parse_grammage,
                  within_range<units::Grammage>(units::parse_grammage));
}

bool Section::quantity(std::string_view name, units::Strain& to) {
  return measured(name, to, units::parse_strain, within_range<units::Strain>(units::parse_strain));
}

bool Section::durations(std::string_view name, std::map<std::string, units::Duration>& to,
                        std::map<std::string, Place>& places) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  if (v->kind != Kind::table) return wrong_kind(name, *v, "");
  const auto& k = key(name);
  bool good = true;
  for (const auto& m : v->members) {
    const auto shown = called(name) + "." + m.key;
    const auto help = "write a duration with its unit: " + m.key + " = \"14 min\"";
    if (m.value.kind != Kind::text) {
      findings_->error(m.value.where,
                       is_number(m.value) ? shown + ": bare number for a duration"
                                          : shown + " is " + std::string(named(m.value.kind)) +
                                                "; it wants a duration with its unit in quotes",
                       is_number(m.value) ? "write a unit: " + m.key + " = " +
                                                quoted(number_text(m.value) + " min")
                                          : help);
      good = false;
      continue;
    }
    const auto parsed = units::parse_duration(m.value.text);
    if (!units::ok(parsed)) {
      const auto& refusal = std::get<units::Refusal>(parsed);
      findings_->error(inside_text(m.value, findings_->text(), refusal.column),
                       shown + ": " + refusal.what, refusal.help);
      good = false;
    } else if (!within_range<units::Duration>(units::parse_duration)(
                   std::get<units::Duration>(parsed), k)) {
      const auto range = std::string(k.low) + " to " + std::string(k.high);
      findings_->error(m.value.where, shown + " is " + m.value.text + ", outside " + range,
                       "give a duration from " + range);
      good = false;
    } else {
      to[m.key] = std::get<units::Duration>(parsed);
      places[m.key] = m.where;
    }
  }
  return good;
}

}  // namespace dampline::session
