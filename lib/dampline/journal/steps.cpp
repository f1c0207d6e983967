#include <algorithm>

#include <dampline/journal/steps.hpp>

namespace dampline::journal {
namespace {

template <class T>
bool agree(const std::optional<T>& a, const std::optional<T>& b) {
  return !a || !b || *a == *b;
}

bool same(const StepMark& a, const StepMark& b) {
  return a.step == b.step && agree(a.plate, b.plate) && agree(a.print, b.print) &&
         agree(a.sheets, b.sheets) && agree(a.person, b.person);
}

}  // namespace

std::optional<units::Duration> Took::length() const {
  if (!from || !until) return std::nullopt;
  return units::seconds(static_cast<double>((until->at - from->at).count()));
}

std::vector<Took> steps(const Held& held) {
  std::vector<Took> out;
  for (const auto* entry : held.entries) {
    if (const auto* start = std::get_if<Start>(&entry->record)) {
      out.push_back({start, entry->time, std::nullopt});
    } else if (const auto* finish = std::get_if<Finish>(&entry->record)) {
      const auto open = std::find_if(out.rbegin(), out.rend(), [&](const Took& t) {
        return !t.until && same(*t.mark, *finish);
      });
      if (open == out.rend()) {
        out.push_back({finish, std::nullopt, entry->time});
      } else {
        open->until = entry->time;
      }
    }
  }
  return out;
}

}  // namespace dampline::journal
