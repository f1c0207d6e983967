#include "validation/baseline.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <sstream>

#include <dampline/units/text.hpp>

#include "validation/page.hpp"

namespace dampline::validation {
namespace {

std::string verdict_word(const Verdict& v) {
  if (!v.bound) return "shown";
  return v.meets() ? "meets" : "misses " + std::to_string(v.outside);
}

// Small enough to hold an uncertainty of any check, large enough to hide noise.
std::string rounded(const Check& check, double value) {
  int decimals = 4;
  for (double band = drift_allowed(check); band < 1e-3 && decimals < 9; band *= 10) ++decimals;
  return units::fixed(value, decimals);
}

std::vector<std::string> split(const std::string& line, char at) {
  std::vector<std::string> fields;
  std::istringstream in(line);
  for (std::string field; std::getline(in, field, at);) fields.push_back(field);
  return fields;
}

bool number(const std::string& word, double& value) {
  const char* from = word.data() + (word.starts_with('+') ? 1 : 0);
  const char* to = word.data() + word.size();
  const auto got = std::from_chars(from, to, value);
  return got.ec == std::errc() && got.ptr == to;
}

// One unit of the last digit written.
double last_digit(const std::string& word) {
  const auto point = word.find('.');
  if (point == std::string::npos) return 1;
  return std::pow(10, -static_cast<double>(word.size() - point - 1));
}

bool same_words(const std::string& one, const std::string& other) {
  const auto a = split(one, ' ');
  const auto b = split(other, ' ');
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    double x = 0, y = 0;
    if (number(a[i], x) && number(b[i], y)) {
      const double digit = std::max(last_digit(a[i]), last_digit(b[i]));
      if (std::abs(x - y) > 1.001 * std::max(digit, 1e-3 * std::abs(x))) return false;
    } else if (a[i] != b[i]) {
      return false;
    }
  }
  return true;
}

}  // namespace

double drift_allowed(const Check& check) {
  double scale = 1;
  if (check.measure == Measure::difference) {
    scale = 0;
    for (const auto& s : check.series) {
      for (const auto& p : s.points) {
        for (const double v : {p.data, p.data_low, p.data_high}) {
          if (!std::isnan(v)) scale = std::max(scale, std::abs(v));
        }
      }
    }
  }
  return std::max(1e-3 * scale, 0.05 * check.own);
}

std::string baseline(const std::vector<Check>& checks) {
  std::string out =
      "# Written by the target `validation` with docs/validation.md; do not edit.\n"
      "id,n,bias,scatter,verdict\n";
  for (const auto& check : checks) {
    const Verdict v = judge(check);
    out += check.id + "," + std::to_string(v.n) + "," + rounded(check, v.bias) + "," +
           rounded(check, v.scatter) + "," + verdict_word(v) + "\n";
  }
  return out;
}

std::vector<std::string> drift(const std::vector<Check>& checks, const std::string& kept) {
  std::map<std::string, std::vector<std::string>> rows;
  for (const auto& line : split(kept, '\n')) {
    auto fields = split(line, ',');
    if (line.starts_with('#') || line.starts_with("id,") || fields.size() != 5) continue;
    rows[fields[0]] = fields;
  }
  std::vector<std::string> changes;
  for (const auto& check : checks) {
    const auto row = rows.find(check.id);
    if (row == rows.end()) {
      changes.push_back(check.id + ": not in the baseline");
      continue;
    }
    const auto& was = row->second;
    const Verdict v = judge(check);
    const std::vector<std::string> now{check.id, std::to_string(v.n), rounded(check, v.bias),
                                       rounded(check, v.scatter), verdict_word(v)};
    bool same = was[1] == now[1] && was[4] == now[4];
    for (const std::size_t i : {2U, 3U}) {
      double a = 0, b = 0;
      same = same && number(was[i], a) && number(now[i], b) &&
             std::abs(a - b) <= 1.001 * drift_allowed(check);
    }
    if (!same) {
      changes.push_back(check.id + ": n, bias, scatter, verdict were " + was[1] + ", " + was[2] +
                        ", " + was[3] + ", " + was[4] + "; are " + now[1] + ", " + now[2] + ", " +
                        now[3] + ", " + now[4] + " (allowed " +
                        units::shortest(drift_allowed(check)) + ")");
    }
    rows.erase(row);
  }
  for (const auto& [id, fields] : rows) changes.push_back(id + ": in the baseline, no such check");
  return changes;
}

std::vector<std::string> overview_drift(const std::string& page, const std::string& kept) {
  const auto now = overview_rows(page);
  const auto was = overview_rows(kept);
  std::vector<std::string> changes;
  if (now.size() != was.size()) changes.push_back("the overview has another number of rows");
  for (std::size_t i = 0; i < std::min(now.size(), was.size()); ++i) {
    if (!same_words(now[i], was[i])) changes.push_back("was " + was[i] + "\n    is " + now[i]);
  }
  return changes;
}

}  // namespace dampline::validation
