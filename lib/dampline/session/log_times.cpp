#include <algorithm>

#include <dampline/session/log_rows.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::session {
namespace {

using std::chrono::floor;
using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::sys_seconds;

// The instants a row may stand for: none, one, or two when the clocks are put back.
struct Instants {
  sys_seconds first{};
  std::optional<sys_seconds> second;
};

std::string two(long n) { return (n < 10 ? "0" : "") + std::to_string(n); }

std::string clock_text(seconds clock) {
  return two(clock.count() / 3600) + ":" + two(clock.count() / 60 % 60);
}

class Clock {
 public:
  Clock(DateOrder order, std::string zone, const std::optional<minutes>& offset, Faults& faults)
      : order_(order), zone_(std::move(zone)), offset_(offset), faults_(faults) {}

  std::optional<Instants> instants(const LogRow& row) const {
    const auto& t = row.time;
    if (t.unix_time) return Instants{*t.unix_time, {}};
    const auto date = date_of(t, order_);
    if (!date) {
      faults_.add(Fault::time, place(row), "there is no such day in the calendar");
      return std::nullopt;
    }
    if (const auto offset = t.offset ? t.offset : offset_) {
      return Instants{sys_days(*date) + t.clock - *offset, {}};
    }
    const auto whole = floor<minutes>(t.clock);
    const auto local = to_utc(zone_, *date, whole);
    if (local.kind == LocalInstant::Kind::skipped) {
      faults_.add(Fault::skipped_time, place(row),
                  "there is no " + clock_text(t.clock) + " on that day in " + zone_ +
                      ": the clocks go from " + clock_text(local.change) + " to " +
                      clock_text(local.changed));
      return std::nullopt;
    }
    Instants out{local.at + (t.clock - whole), {}};
    if (local.kind == LocalInstant::Kind::repeated) {
      out.second = out.first + (local.change - local.changed);
    }
    return out;
  }

  static Place place(const LogRow& row) { return {row.line, row.time_column}; }

 private:
  DateOrder order_;
  std::string zone_;
  std::optional<minutes> offset_;
  Faults& faults_;
};

// More steps back than forward: the newest reading stands first.
bool falling(const std::vector<std::pair<LogRow, Instants>>& rows) {
  long balance = 0;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto before = rows[i - 1].second.first;
    const auto now = rows[i].second.first;
    if (now < before) --balance;
    if (now > before) ++balance;
  }
  return balance < 0;
}

// The most rows that rise in time; of rows with one time the first. The others are left out, so
// that one wild time does not cost all that follow it.
std::vector<TimedRow> most_rising(std::vector<TimedRow> all, Faults& faults) {
  constexpr auto none = static_cast<std::size_t>(-1);
  std::vector<std::size_t> tails;  // of the best sequences of each length, by index
  std::vector<std::size_t> before(all.size(), none);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto place = std::lower_bound(
        tails.begin(), tails.end(), all[i].at,
        [&](std::size_t index, const sys_seconds& at) { return all[index].at < at; });
    if (place != tails.end() && all[*place].at == all[i].at) continue;
    if (place != tails.begin()) before[i] = *(place - 1);
    if (place == tails.end()) {
      tails.push_back(i);
    } else {
      *place = i;
    }
  }
  std::vector<bool> kept(all.size(), false);
  for (auto i = tails.empty() ? none : tails.back(); i != none; i = before[i]) kept[i] = true;
  std::vector<TimedRow> rows;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (kept[i]) rows.push_back(all[i]);
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (kept[i]) continue;
    const auto same =
        std::lower_bound(rows.begin(), rows.end(), all[i].at,
                         [](const TimedRow& r, const sys_seconds& at) { return r.at < at; });
    const bool twice = same != rows.end() && same->at == all[i].at;
    faults.add(twice ? Fault::twice : Fault::backwards, Clock::place(all[i].row),
               twice ? "its time is that of line " + std::to_string(same->row.line)
                     : "its time does not go on from the rows beside it");
  }
  return rows;
}

}  // namespace

Timed timed(std::vector<LogRow> rows, DateOrder order, const std::string& zone,
            const std::optional<minutes>& offset, Faults& faults) {
  const Clock clock(order, zone, offset, faults);
  std::vector<std::pair<LogRow, Instants>> found;
  for (auto& row : rows) {
    if (const auto at = clock.instants(row)) found.emplace_back(std::move(row), *at);
  }
  Timed out;
  out.newest_first = falling(found);
  if (out.newest_first) std::reverse(found.begin(), found.end());
  std::vector<TimedRow> all;
  for (auto& [row, at] : found) {
    auto instant = at.first;
    if (at.second) {
      ++out.in_repeated_hour;
      const bool passed = !all.empty() && instant <= all.back().at;
      if (passed && *at.second > all.back().at) instant = *at.second;
    }
    all.push_back({std::move(row), instant});
  }
  out.rows = most_rising(std::move(all), faults);
  return out;
}

}  // namespace dampline::session
