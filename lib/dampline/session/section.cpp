#include <algorithm>
#include <stdexcept>

#include <dampline/session/section.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::session {
namespace {

// Defaults as values, read once from the key table by the same reader as the file.
const Value* default_value(const Key& key) {
  static const auto all = [] {
    std::map<std::string_view, Value> values;
    for (const auto& k : keys()) {
      if (k.need != Need::fallback) continue;
      auto parsed = parse_document("x = " + std::string(k.fallback), "defaults");
      values.emplace(k.path, std::get<Value>(std::move(parsed)).members.at(0).value);
    }
    return values;
  }();
  const auto it = all.find(key.path);
  return it == all.end() ? nullptr : &it->second;
}

}  // namespace

Section::Section(Findings& findings, const Value& top) : Section(findings, "", "", &top, Place{}) {}

Section::Section(Findings& findings, std::string path, std::string shown, const Value* table,
                 Place where, bool quiet)
    : findings_(&findings),
      path_(std::move(path)),
      shown_(std::move(shown)),
      table_(table),
      where_(where),
      quiet_(quiet) {
  refuse_unknown_keys();
}

void Section::refuse_unknown_keys() {
  if (table_ == nullptr) return;
  const auto known = names_inside(path_);
  for (const auto& m : table_->members) {
    if (std::find(known.begin(), known.end(), m.key) != known.end()) continue;
    const auto near = units::nearest(m.key, known);
    const auto place = shown_.empty() ? std::string("a session") : "[" + shown_ + "]";
    findings_->error(m.where, "unknown key " + quoted(m.key) + " in " + place,
                     near ? "did you mean " + *near + "?"
                          : "the keys here are " + units::listed(known, "", "and"));
  }
}

const Key& Section::key(std::string_view name) const {
  const auto path = path_.empty() ? std::string(name) : path_ + "." + std::string(name);
  const auto* found = find_key(path);
  if (found == nullptr) throw std::logic_error("no such key in the table: " + path);
  return *found;
}

const Value* Section::member(std::string_view name) const {
  if (table_ == nullptr) return nullptr;
  for (const auto& m : table_->members) {
    if (m.key == name) return &m.value;
  }
  return nullptr;
}

Place Section::where(std::string_view name) const {
  const auto* v = member(name);
  return v == nullptr ? where_ : v->where;
}

std::string Section::called(std::string_view name) const {
  return shown_.empty() ? std::string(name) : shown_ + "." + std::string(name);
}

void Section::note_default(std::string_view name, const std::string& value) {
  if (quiet_) return;
  findings_->defaults.push_back(called(name) + " = " + value);
}

const Value* Section::value(std::string_view name) {
  const auto& k = key(name);
  if (const auto* v = member(name)) return v;
  if (k.need == Need::required) {
    const bool block = k.form == Form::table || k.form == Form::tables;
    const auto header =
        k.form == Form::tables ? "[[" + called(name) + "]]" : "[" + called(name) + "]";
    findings_->error(
        where_,
        block ? header + " is missing: " + std::string(k.meaning) : called(name) + " is missing",
        block ? "add it; dampline new writes an example"
              : "add: " + example_line(name, k) + "  (" + std::string(k.meaning) + ")");
    return nullptr;
  }
  const auto* v = default_value(k);
  const bool list = k.form == Form::tables;
  if (v != nullptr) note_default(name, list ? std::string(k.fallback) : unquoted(k.fallback));
  return v;
}

bool Section::wrong_kind(std::string_view name, const Value& v, const std::string& help) {
  const auto& k = key(name);
  findings_->error(v.where,
                   called(name) + " is " + std::string(named(v.kind)) + "; it wants " + expected(k),
                   help.empty() ? "write: " + example_line(name, k) : help);
  return false;
}

bool Section::refuse(std::string_view name, const Value& v, const units::Refusal& refusal) {
  findings_->error(inside_text(v, findings_->text(), refusal.column),
                   called(name) + ": " + refusal.what, refusal.help);
  return false;
}

Section Section::inside(std::string_view name) {
  const auto& k = key(name);
  const auto path = path_.empty() ? std::string(name) : path_ + "." + std::string(name);
  const auto* v = member(name);
  if (v == nullptr && k.need == Need::required) static_cast<void>(value(name));  // notes it
  if (v != nullptr && v->kind != Kind::table) {
    wrong_kind(name, *v, "write the name in brackets alone on a line: [" + called(name) + "]");
    v = nullptr;
  }
  return {*findings_, path, called(name), v, v == nullptr ? where_ : v->where};
}

std::vector<Section> Section::each(std::string_view name) {
  const auto& k = key(name);
  const auto path = (path_.empty() ? std::string(name) : path_ + "." + std::string(name)) + "[]";
  const auto* v = value(name);
  std::vector<Section> out;
  if (v == nullptr) return out;
  if (v->kind == Kind::table) {
    wrong_kind(name, *v, "write [[" + called(name) + "]] with double brackets for each");
    return out;
  }
  if (v->kind != Kind::list) {
    wrong_kind(name, *v, k.example.empty() ? "write [[" + called(name) + "]] for each" : "");
    return out;
  }
  const auto most = read_plain(k.high);
  if (static_cast<double>(v->items.size()) > most ||
      (v->items.empty() && k.need != Need::optional)) {
    findings_->error(v->where,
                     called(name) + " has " + std::to_string(v->items.size()) + ", outside 1 to " +
                         std::string(k.high),
                     "give from 1 to " + std::string(k.high) + " of them");
    return out;
  }
  int n = 0;
  for (const auto& item : v->items) {
    const auto shown = called(name) + "[" + std::to_string(++n) + "]";
    if (item.kind != Kind::table) {
      findings_->error(item.where,
                       shown + " is " + std::string(named(item.kind)) + "; it wants a table",
                       k.example.empty() ? "write [[" + called(name) + "]] for each"
                                         : "write: " + example_line(name, k));
      continue;
    }
    const bool given = has(name);
    out.push_back(Section(*findings_, path, shown, &item, given ? item.where : where_, !given));
  }
  return out;
}

}  // namespace dampline::session
