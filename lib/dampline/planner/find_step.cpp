#include <algorithm>
#include <cctype>
#include <map>
#include <set>

#include <dampline/planner/find_step.hpp>
#include <dampline/session/clock_time.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::planner {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string lower(std::string_view text) {
  std::string out(text);
  for (auto& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

std::set<std::string> tokens(std::string_view text) {
  std::set<std::string> out;
  std::string word;
  for (const char c : lower(text) + " ") {
    const bool parts = c == ' ' || c == '-' || c == '/' || c == ',' || c == ':' || c == '.';
    if (!parts) {
      word += c;
    } else if (!word.empty()) {
      out.insert(std::move(word));
      word.clear();
    }
  }
  return out;
}

std::vector<std::string> at_time(const std::vector<Step>& steps, HalfMinutes at) {
  std::vector<std::string> begin, go_on;
  for (const auto& step : steps) {
    if (step.start >= at && step.start < at + HalfMinutes(2)) begin.push_back(step.id);
    if (step.start <= at && at < step.end) go_on.push_back(step.id);
  }
  return begin.empty() ? go_on : begin;
}

// Of the steps that all the words fit: those whose kind is one of the words, if any are.
std::vector<std::string> by_words(const std::vector<Step>& steps, std::string_view word) {
  const auto asked = tokens(word);
  std::vector<std::string> all, of_kind;
  for (const auto& step : steps) {
    auto own = tokens(step.id + " " + step.kind + " " + step.plate);
    if (step.print > 0) own.insert(std::to_string(step.print));
    if (!std::includes(own.begin(), own.end(), asked.begin(), asked.end())) continue;
    all.push_back(step.id);
    if (asked.contains(lower(step.kind))) of_kind.push_back(step.id);
  }
  return of_kind.empty() ? all : of_kind;
}

}  // namespace

StepSought seek_step(const std::vector<Step>& steps, const session::Day& day,
                     std::string_view word) {
  auto joined = lower(word);
  std::replace(joined.begin(), joined.end(), ' ', '-');
  for (const auto& step : steps) {
    if (lower(step.id) == joined) return {{step.id}, {}};
  }
  if (const auto time = session::clock_time_from(word)) {
    return {at_time(steps, session::since_opening(day, *time)), {}};
  }
  auto found = tokens(word).empty() ? std::vector<std::string>() : by_words(steps, word);
  if (!found.empty()) return {std::move(found), {}};
  std::vector<std::string> ids{"finish"};
  for (const auto& step : steps) ids.push_back(step.id);
  return {{}, units::nearest(joined, ids)};
}

std::vector<std::string> step_ranges(const std::vector<Step>& steps) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::string>> alike;
  for (const auto& step : steps) {
    if (step.id.find('/') != std::string::npos) continue;
    std::string pattern;
    for (const char c : step.id) {
      if (!is_digit(c)) pattern += c;
    }
    auto& ids = alike[pattern];
    if (ids.empty()) order.push_back(pattern);
    ids.push_back(step.id);
  }
  std::vector<std::string> out;
  for (const auto& pattern : order) {
    const auto& ids = alike[pattern];
    out.push_back(ids.size() == 1 ? ids.front() : ids.front() + " to " + ids.back());
  }
  return out;
}

}  // namespace dampline::planner
