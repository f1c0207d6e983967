#include <algorithm>
#include <array>
#include <cmath>

#include <dampline/session/logged_air.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {
namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::sys_seconds;
using std::chrono::year_month_day;

std::string month(year_month_day d) {
  constexpr std::array<const char*, 12> names{"January",   "February", "March",    "April",
                                              "May",       "June",     "July",     "August",
                                              "September", "October",  "November", "December"};
  return names[static_cast<unsigned>(d.month()) - 1];
}

std::string date_text(year_month_day d) {
  return std::to_string(static_cast<unsigned>(d.day())) + " " + month(d);
}

// "10 to 13 March", "28 February, 2 March and 4 March 2025" where years differ from `today`.
std::string days_text(const std::vector<year_month_day>& all, year_month_day today) {
  const auto with_year = [&](year_month_day d) {
    return date_text(d) +
           (d.year() == today.year() ? "" : " " + std::to_string(static_cast<int>(d.year())));
  };
  const bool in_a_row =
      sys_days(all.back()) - sys_days(all.front()) == days(static_cast<int>(all.size()) - 1);
  if (all.size() == 1) return with_year(all.front());
  if (in_a_row) {
    const bool one_month = all.front().month() == all.back().month();
    return (one_month ? std::to_string(static_cast<unsigned>(all.front().day()))
                      : with_year(all.front())) +
           " to " + with_year(all.back());
  }
  std::vector<std::string> names;
  for (const auto& d : all) names.push_back(with_year(d));
  return units::listed(names, "", "and");
}

class Teller {
 public:
  explicit Teller(const WantedAir& wanted)
      : wanted_(wanted),
        today_(date_at(wanted.zone, instant_of(wanted, 0.5 * (wanted.from + wanted.until)))) {}

  // "11:40", with its date when it is not of the day.
  [[nodiscard]] std::string clock(sys_seconds at) const {
    const auto text = local_text(wanted_.zone, at).substr(11);
    const auto date = date_at(wanted_.zone, at);
    return date == today_ ? text : date_text(date) + " " + text;
  }
  [[nodiscard]] std::string stretch(units::Duration from, units::Duration until) const {
    return clock(instant_of(wanted_, from)) + " to " + clock(instant_of(wanted_, until));
  }
  [[nodiscard]] year_month_day today() const { return today_; }

 private:
  const WantedAir& wanted_;
  year_month_day today_;
};

std::string spread_text(const HoursAir& air) {
  if (!air.spread_known) return "no hour of it was logged twice, so its spread is not known";
  return "8 of 10 hours lie within " + units::fixed(units::in_si(air.temperature_spread), 1) +
         " K and " + units::fixed(air.humidity_spread.percent(), 0) + " % RH of it";
}

std::string hours_text(const HoursAir& air, const AirHours& h, const Teller& tell) {
  const auto stretch = tell.stretch(h.from, h.until) + ": ";
  switch (h.basis) {
    case AirBasis::typical:
      if (air.days.empty()) break;
      return stretch + "a typical day, the mean by the clock hour of the readings of " +
             days_text(air.days, tell.today()) + "; " + spread_text(air) + ".";
    case AirBasis::logged:
      return stretch + "as logged.";
    case AirBasis::nearest:
      break;
  }
  return stretch + "no reading; the nearest one stands for them.";
}

std::string counted(int n, const std::string& what) {
  return std::to_string(n) + " " + what + (n == 1 ? "" : "s");
}

std::string interval_text(std::chrono::seconds interval) {
  return units::text(units::seconds(static_cast<double>(interval.count())));
}

}  // namespace

std::string word(AirBasis basis) {
  switch (basis) {
    case AirBasis::logged:
      return "logged";
    case AirBasis::typical:
      return "typical day";
    case AirBasis::nearest:
      break;
  }
  return "nearest reading";
}

sys_seconds instant_of(const WantedAir& wanted, units::Duration at) {
  return wanted.zero + std::chrono::seconds(std::llround(units::in_si(at)));
}

std::string local_text(std::string_view zone, sys_seconds at) {
  auto text = rfc3339(zone, at).substr(0, 16);
  text[10] = ' ';
  return text;
}

std::vector<std::string> described(const HoursAir& air, const Readings& readings,
                                   const WantedAir& wanted) {
  const Teller tell(wanted);
  std::vector<std::string> out;
  const int bad = left_out(readings);
  std::string log =
      readings.file + " has " + counted(static_cast<int>(readings.rows.size()), "reading");
  if (readings.interval.count() > 0) log += ", one every " + interval_text(readings.interval);
  if (bad > 0) log += "; " + counted(bad, "row") + " left out";
  out.push_back(log + "; " + std::to_string(air.rows) + " of them lie in the hours planned.");
  for (const auto& h : air.hours) out.push_back(hours_text(air, h, tell));
  for (const auto& gap : air.bridged) {
    out.push_back("No reading from " + tell.clock(gap.from) + " to " + tell.clock(gap.until) +
                  " (lines " + std::to_string(gap.line_before) + " and " +
                  std::to_string(gap.line_after) + "): a straight line joins them.");
  }
  if (air.averaged.count() > 0) {
    out.push_back("Readings are averaged over " + interval_text(air.averaged) + ".");
  }
  out.insert(out.end(), readings.notes.begin(), readings.notes.end());
  return out;
}

std::vector<AirDoubt> doubts(const HoursAir& air, const Readings& readings,
                             const WantedAir& wanted) {
  constexpr days far_off{31};  // a month: rooms follow the season
  const Teller tell(wanted);
  std::vector<AirDoubt> out;
  for (const auto& h : air.hours) {
    const bool typical_empty = h.basis == AirBasis::typical && air.days.empty();
    if (h.basis != AirBasis::nearest && !typical_empty) continue;
    out.push_back({readings.file + " has no reading near " + tell.stretch(h.from, h.until) +
                       ": the nearest one stands for them",
                   "let the log run through the day, or through some days before it"});
  }
  if (air.beyond > 0) {
    out.push_back({counted(air.beyond, "reading") + " of " + readings.file +
                       " outside 0 to 45 degC " + (air.beyond == 1 ? "is" : "are") + " not used",
                   "keep the logger by the bench, out of the sun"});
  }
  if (air.days.empty()) return out;
  auto nearest = days::max();
  for (const auto& d : air.days) {
    nearest = std::min(nearest, std::chrono::abs(sys_days(d) - sys_days(tell.today())));
  }
  if (nearest > far_off) {
    out.push_back({"the readings of " + readings.file + " are " + std::to_string(nearest.count()) +
                       " days from the day planned: the room may be another by then",
                   "log some days nearer to it"});
  }
  return out;
}

}  // namespace dampline::session
