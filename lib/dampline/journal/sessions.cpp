#include <algorithm>
#include <map>

#include <dampline/journal/sessions.hpp>

namespace dampline::journal {

std::chrono::year_month_day date_of(const Stamp& time) {
  return {std::chrono::floor<std::chrono::days>(time.at + time.offset)};
}

std::vector<Held> sessions(std::span<const Entry> entries) {
  std::map<std::chrono::sys_days, std::map<std::string, Held>> days;
  for (const auto& entry : entries) {
    auto& held = days[entry.day][entry.session];
    held.title = entry.session;
    held.day = entry.day;
    held.entries.push_back(&entry);
  }
  std::vector<Held> out;
  for (auto& [day, titles] : days) {
    const auto untitled = titles.find("");
    if (untitled != titles.end() && titles.size() == 2) {
      auto& named = titles.rbegin()->second.entries;
      named.insert(named.end(), untitled->second.entries.begin(), untitled->second.entries.end());
      titles.erase(untitled);
    }
    const auto first = out.size();
    for (auto& [title, held] : titles) {
      std::stable_sort(held.entries.begin(), held.entries.end(),
                       [](const Entry* a, const Entry* b) { return a->time.at < b->time.at; });
      out.push_back(std::move(held));
    }
    std::stable_sort(out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
                     [](const Held& a, const Held& b) {
                       return a.entries.front()->time.at < b.entries.front()->time.at;
                     });
  }
  return out;
}

const Entry* going_on(std::span<const Entry> entries, const Stamp& time,
                      const std::optional<std::string>& title) {
  constexpr std::chrono::hours same_sitting{12};
  const auto date = date_of(time);
  const Entry* before = nullptr;
  for (auto it = entries.rbegin(); it != entries.rend(); ++it) {
    if (title && it->session != *title) continue;
    if (it->day == date || date_of(it->time) == date) return &*it;
    const auto since = time.at - it->time.at;
    if (before == nullptr && since >= since.zero() && since < same_sitting) before = &*it;
  }
  return before;
}

}  // namespace dampline::journal
