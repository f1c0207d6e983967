#include "validation/page.hpp"

#include <algorithm>
#include <cmath>

#include <dampline/units/text.hpp>

#include "validation/head.hpp"
#include "validation/page_words.hpp"

namespace dampline::validation {
namespace {

struct Part {
  std::string title;
  std::string words;
  std::vector<Basis> bases;
};

const std::vector<Part>& parts() {
  static const std::vector<Part> all{
      {"Against measurements, published formulae and handbooks",
       "Validation: does the model say what nature was seen to do?",
       {Basis::measured, Basis::formula}},
      {"Against the trade and against recalled values",
       "Weaker: rules of thumb, and numbers nobody has yet compared with the print.",
       {Basis::memory, Basis::practice}},
      {"Against exact solutions, other programs and computed tables",
       "Verification: are the equations solved and coded right? Says nothing about paper.",
       {Basis::exact, Basis::program, Basis::computed}},
  };
  return all;
}

std::string joined(const std::vector<std::string>& words, const std::string& between) {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : between) + word;
  return out;
}

std::string cited(const Check& check) {
  std::vector<std::string> keys;
  for (const auto& file : check.files) {
    for (const auto& key : keys_in(head_of(file).source)) {
      if (std::count(keys.begin(), keys.end(), key) == 0) keys.push_back(key);
    }
  }
  return keys.empty() ? "" : " [" + joined(keys, "] [") + "]";
}

std::string overview(const std::vector<Check>& checks) {
  std::string out;
  for (const auto& part : parts()) {
    std::string rows;
    for (const auto& check : checks) {
      if (std::count(part.bases.begin(), part.bases.end(), check.basis) == 0) continue;
      const Verdict v = judge(check);
      if (check.prediction) continue;
      rows += "| [" + check.title + "](#" + check.id + ") | " + words(check.basis) + cited(check) +
              " | " + std::to_string(v.n) + " | " + deviation_words(check, v.bias) + " | " +
              (v.n > 2 ? spread_words(check, v.scatter) : "-") + " | " +
              deviation_words(check, v.worst) + " | " + own_words(check) + " | " +
              held_words(check) + " | " + verdict_words(check, v) + " |\n";
    }
    if (rows.empty()) continue;
    out += "### " + part.title + "\n\n" + part.words +
           "\n\n| quantity | data | n | bias | scatter | worst | data's own | held to | verdict |\n"
           "|---|---|--:|--:|--:|--:|--:|--:|---|\n" +
           rows + "\n";
  }
  return out;
}

std::string count_words(const std::vector<Check>& checks) {
  int meets = 0, misses = 0, shown = 0;
  const auto predictions =
      std::count_if(checks.begin(), checks.end(), [](const Check& c) { return c.prediction; });
  for (const auto& check : checks) {
    if (check.prediction) continue;
    const Verdict v = judge(check);
    ++(!v.bound ? shown : v.meets() ? meets : misses);
  }
  return std::to_string(meets + misses + shown) + " checks: " + std::to_string(meets) +
         " meet their bound, " + std::to_string(misses) + " miss it, " + std::to_string(shown) +
         " are shown without one because the data support none. Beside them " +
         (predictions == 1 ? "a prediction" : std::to_string(predictions) + " predictions") +
         " for data nobody here could read.";
}

std::string value(const Check& check, double number) {
  return std::isnan(number) ? "" : units::fixed(number, check.decimals);
}

std::string prediction_table(const Check& check) {
  std::string rows;
  for (const auto& s : check.series) {
    for (const auto& p : s.points) {
      rows += "| " + s.name + " | " + units::shortest(p.x) + " | " + value(check, p.model) + " |\n";
    }
  }
  return "| | " + check.x_label + " | model, " + check.unit + " |\n|---|--:|--:|\n" + rows + "\n";
}

std::string table(const Check& check) {
  const bool labels = std::any_of(check.series.begin(), check.series.end(), [](const Series& s) {
    return std::any_of(s.points.begin(), s.points.end(),
                       [](const Point& p) { return !p.label.empty(); });
  });
  const bool with_x = check.picture == Picture::curve;
  std::size_t n = 0;
  std::string rows;
  for (const auto& s : check.series) {
    for (const auto& p : s.points) {
      ++n;
      rows += "| " + joined({s.name, labels ? p.label : ""}, s.name.empty() || !labels ? "" : " ") +
              (with_x ? " | " + units::shortest(p.x) : "") + " | " + value(check, p.data);
      if (!std::isnan(p.data_low)) {
        rows += (std::isnan(p.data) ? "" : " (") + value(check, p.data_low) + " to " +
                value(check, p.data_high) + (std::isnan(p.data) ? "" : ")");
      }
      rows += " | " + value(check, p.model) + " | ";
      const bool counted = !std::isnan(p.data) || !std::isnan(p.data_low);
      rows += (counted ? deviation_words(check, deviation(check, p)) : "") + " |\n";
    }
  }
  const std::string unit = check.unit.empty() ? "" : ", " + check.unit;
  std::string out = std::string("| ") + (with_x ? " | " + check.x_label : "") + " | data" + unit +
                    " | model" + unit + " | off by |\n|---|" + (with_x ? "--:|" : "") +
                    "--:|--:|--:|\n" + rows;
  if (n <= 8) return out + "\n";
  return "<details><summary>" + std::to_string(n) + " points</summary>\n\n" + out +
         "\n</details>\n\n";
}

std::string prediction_words(const Check& check) {
  return "A prediction: no data are read here.\n\n" + check.notes + "\n\nModel: " + check.model +
         " (room `" + check.room + "`).\n\n";
}

std::string section(const Check& check) {
  const Verdict v = judge(check);
  std::string out = "<a id=\"" + check.id + "\"></a>\n\n### " + check.title + "\n\n![" +
                    check.title +
                    (check.prediction ? "](validation/" : ": model beside data](validation/") +
                    check.id + ".svg)\n\n";
  if (check.prediction) return out + prediction_words(check) + prediction_table(check);
  out += "Verdict: " + verdict_words(check, v) + ". Data: " + words(check.basis) + ". Bias " +
         deviation_words(check, v.bias);
  if (v.n > 2) out += ", scatter " + spread_words(check, v.scatter);
  out += ", worst " + deviation_words(check, v.worst) + " (n " + std::to_string(v.n) + "). ";
  out += "Data's own uncertainty: " + own_words(check);
  if (!check.own_why.empty()) out += " (" + check.own_why + ")";
  if (check.own > 0 && v.n > 2) {
    out += "; the model's share of the scatter " + spread_words(check, model_scatter(check, v));
  }
  out += ".\n\n";
  if (!v.meets() && !check.miss.empty()) out += "Miss: " + check.miss + "\n\n";
  if (!check.notes.empty()) out += check.notes + "\n\n";
  if (!check.model.empty()) out += "Model: " + check.model + " (room `" + check.room + "`).\n\n";
  for (const auto& file : check.files) {
    const Head head = head_of(file);
    out += "Data `tests/reference/" + file + "`: " + head.title + " Source: " + head.source;
    if (!head.allowed.empty()) out += " Allowed: " + head.allowed;
    out += "\n\n";
  }
  return out + table(check);
}

constexpr const char* reading =
    R"(How to read it. **Bias** is how far the model lies from the data on average: the mean of
ln(model/data) as per cent or as a factor, or of model - data in the unit. **Scatter** is the
standard deviation about that. **Data's own** is the standard uncertainty of the data, where their
source or their spread tells it. A check **meets** when every point (or where it says rms, every
series) lies within what it is held to, else it **misses**; a miss stays here with its reason and
fails no test. What does fail a test is a change: `docs/validation/baseline.csv` holds bias, scatter
and verdict of every check, and a drift beyond 0.1 % of the value or a twentieth of the data's own
uncertainty shows as a difference. "x 1.3" is a factor. Only rows marked *measured* compare with a
measurement; a *computed table* was worked out for this project by a separate program and tests the
coding. Pictures: hollow marks are data, with their error bars; lines or strokes are the model.)";

}  // namespace

std::string page(const std::vector<Check>& checks) {
  std::string out =
      "# Validation\n\nWritten by `cmake --build build --target validation`; do not edit. Keys in "
      "square brackets are in `sources.bib`.\n\n";
  out += count_words(checks) + "\n\n" + reading + "\n\n## Overview\n\n" + overview(checks);
  std::string room;
  for (const auto& check : checks) {
    if (check.room != room) {
      room = check.room;
      out += "## Room `" + room + "`\n\n";
    }
    out += section(check);
  }
  return out + gaps();
}

std::vector<std::string> overview_rows(const std::string& page) {
  std::vector<std::string> rows;
  std::string line;
  for (const char c : page) {
    if (c != '\n') {
      line += c;
      continue;
    }
    if (line.starts_with("| [")) rows.push_back(line);
    line.clear();
  }
  return rows;
}

}  // namespace dampline::validation
