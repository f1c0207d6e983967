#include "schema.hpp"

#include <charconv>

#include <dampline/report/json.hpp>
#include <dampline/session/keys.hpp>
#include <dampline/session/starter.hpp>

namespace dampline::cli {
namespace {

using report::JsonWriter;
using report::Layout;
using session::Form;
using session::Key;

int whole(std::string_view digits) {
  int value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

double real(std::string_view digits) {
  double value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

void words(JsonWriter& w, const Key& k) {
  w.key("enum").begin_array(Layout::row);
  for (const auto word : k.words) w.value(word);
  w.end_array();
}

void write_table(JsonWriter& w, const std::string& path);

void write_form(JsonWriter& w, const Key& k) {
  switch (k.form) {
    case Form::whole:
      w.member("type", "integer").member("minimum", whole(k.low)).member("maximum", whole(k.high));
      return;
    case Form::number:
      w.member("type", "number").member("minimum", real(k.low)).member("maximum", real(k.high));
      return;
    case Form::truth:
      w.member("type", "boolean");
      return;
    case Form::word:
      w.member("type", "string");
      words(w, k);
      return;
    case Form::words:
      w.member("type", "array").member("minItems", 1).key("items").begin_object(Layout::row);
      words(w, k);
      w.end_object();
      return;
    case Form::names:
      w.member("type", "array").key("items").begin_object(Layout::row);
      w.member("type", "string").end_object();
      return;
    case Form::durations:
      w.member("type", "object").key("additionalProperties").begin_object(Layout::row);
      w.member("type", "string").end_object();
      return;
    case Form::table:
      write_table(w, std::string(k.path));
      return;
    case Form::tables:
      w.member("type", "array").member("maxItems", whole(k.high));
      if (k.need != session::Need::optional) w.member("minItems", whole(k.low));
      w.key("items").begin_object();
      write_table(w, std::string(k.path) + "[]");
      w.end_object();
      return;
    default:
      w.member("type", "string");
  }
}

void write_key(JsonWriter& w, const Key& k) {
  const auto limits = session::limits(k);
  w.begin_object();
  w.member("description", std::string(k.meaning) + (limits.empty() ? "" : "; " + limits));
  write_form(w, k);
  w.end_object();
}

void write_table(JsonWriter& w, const std::string& path) {
  w.member("type", "object").member("additionalProperties", false);
  const auto prefix = path.empty() ? "" : path + ".";
  std::vector<std::string> required;
  w.key("properties").begin_object();
  for (const auto& name : session::names_inside(path)) {
    const auto& k = *session::find_key(prefix + name);
    if (k.need == session::Need::required) required.push_back(name);
    w.key(name);
    write_key(w, k);
  }
  w.end_object();
  if (!required.empty()) w.member("required", required);
}

}  // namespace

std::string session_schema() {
  JsonWriter w;
  w.begin_object();
  w.member("$schema", "http://json-schema.org/draft-04/schema#");
  w.member("title", "A printing session for dampline");
  write_table(w, "");
  w.end_object();
  return w.take();
}

}  // namespace dampline::cli
