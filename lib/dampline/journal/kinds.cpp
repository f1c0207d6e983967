#include <algorithm>

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/values.hpp>

namespace dampline::journal {
namespace {

constexpr std::size_t known = std::variant_size_v<Record> - 1;  // Unknown is the last

template <class T>
struct Bare {
  using type = T;
  static constexpr bool optional = false;
};
template <class T>
struct Bare<std::optional<T>> {
  using type = T;
  static constexpr bool optional = true;
};

// A record of every kind, by its place in the variant.
template <std::size_t... i>
std::vector<Record> one_of_each(std::index_sequence<i...>) {
  return {std::variant_alternative_t<i, Record>{}...};
}

struct Describe {
  std::vector<Field>& out;
  template <class T>
  void operator()(const Label& label, const T&) {
    using Value = typename Bare<T>::type;
    Field f{label.name,     label.help, label.example, label.letter, !Bare<T>::optional,
            unit_of<Value>, {}};
    if constexpr (std::is_enum_v<Value>) {
      f.words.assign(Words<Value>::all.begin(), Words<Value>::all.end());
    }
    out.push_back(std::move(f));
  }
};

struct Collect {
  const std::vector<Field>& fields;
  std::vector<Datum>& out;
  std::size_t at = 0;
  template <class T>
  void operator()(const Label&, const T& value) {
    const auto* field = &fields[at++];
    if constexpr (Bare<T>::optional) {
      if (value) add(field, shown(*value));
    } else {
      add(field, shown(value));
    }
  }
  void add(const Field* field, Shown s) {
    out.push_back({field, std::move(s.text), s.number, s.bare});
  }
};

struct Make {
  const std::vector<Field>& fields;
  const Given& given;
  std::vector<Fault>& faults;
  std::size_t at = 0;
  template <class T>
  void operator()(const Label& label, T& to) {
    using Value = typename Bare<T>::type;
    const auto text = given(fields[at++]);
    if (!text) {
      if (!Bare<T>::optional) {
        faults.push_back({std::string(label.name),
                          {0, "missing: " + std::string(label.help),
                           "say it, like \"" + std::string(label.example) + "\""}});
      }
      return;
    }
    auto found = read_value(label, *text, static_cast<Value*>(nullptr));
    if (auto* refusal = std::get_if<units::Refusal>(&found)) {
      faults.push_back({std::string(label.name), std::move(*refusal)});
    } else {
      to = std::move(std::get<Value>(found));
    }
  }
};

// What no single field can be blamed for.
std::optional<Fault> fault_of(const Record& record) {
  const auto* air = std::get_if<Air>(&record);
  if (air == nullptr) return std::nullopt;
  const auto fault = [](const char* what) {
    return Fault{"", {0, what, "give a temperature with a humidity or a wet bulb"}};
  };
  if (!air->temperature && !air->humidity) return fault("no reading of the air");
  if (!air->wet_bulb) return std::nullopt;
  if (!air->temperature) return fault("a wet bulb says nothing without the temperature");
  if (*air->wet_bulb > *air->temperature) return fault("the wet bulb is warmer than the air");
  return std::nullopt;
}

std::vector<KindAbout> described() {
  std::vector<KindAbout> out;
  for (const auto& record : one_of_each(std::make_index_sequence<known>())) {
    std::visit(
        [&out]<class Kind>(const Kind& kind) {
          auto& about = out.emplace_back(
              KindAbout{head<Kind>.name, head<Kind>.purpose, head<Kind>.example, {}});
          Describe describe{about.fields};
          visit_fields(describe, kind);
        },
        record);
  }
  return out;
}

}  // namespace

std::span<const KindAbout> kinds() {
  static const std::vector<KindAbout> table = described();
  return table;
}

const KindAbout* find_kind(std::string_view name) {
  const auto all = kinds();
  const auto it =
      std::find_if(all.begin(), all.end(), [name](const KindAbout& k) { return k.name == name; });
  return it == all.end() ? nullptr : &*it;
}

std::string_view kind_name(const Record& record) {
  if (const auto* unknown = std::get_if<Unknown>(&record)) return unknown->kind;
  return kinds()[record.index()].name;
}

std::vector<Datum> data(const Record& record) {
  std::vector<Datum> out;
  if (std::holds_alternative<Unknown>(record)) return out;
  Collect collect{kinds()[record.index()].fields, out};
  std::visit([&collect](const auto& kind) { visit_fields(collect, kind); }, record);
  return out;
}

std::variant<Record, std::vector<Fault>> made(std::string_view kind, const Given& given) {
  static const auto blank = one_of_each(std::make_index_sequence<known>());
  const auto at = static_cast<std::size_t>(find_kind(kind) - kinds().data());
  Record record = blank.at(at);
  std::vector<Fault> faults;
  Make make{kinds()[at].fields, given, faults};
  std::visit([&make](auto& k) { visit_fields(make, k); }, record);
  if (faults.empty()) {
    if (auto fault = fault_of(record)) faults.push_back(std::move(*fault));
  }
  if (!faults.empty()) return faults;
  return record;
}

std::string summary(const Entry& entry) {
  std::string out;
  const auto add = [&out](std::string_view joint, std::string_view name, std::string_view text) {
    if (!out.empty()) out += joint;
    for (const char c : name) out += c == '_' ? ' ' : c;
    if (!name.empty()) out += ' ';
    out += text;
  };
  for (const auto& d : data(entry.record)) {
    const bool named = !d.field->required || (d.bare && d.field->name != kind_name(entry.record));
    add(d.field->required ? " " : ", ", named ? d.field->name : "", d.text);
  }
  for (const auto& other : entry.others) add(", ", other.key, other.value);
  if (entry.remark) add(", ", "note", *entry.remark);
  return out;
}

}  // namespace dampline::journal
