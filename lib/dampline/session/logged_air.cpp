#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include <dampline/session/logged_air.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::session {
namespace {

using std::chrono::floor;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::sys_seconds;
using units::in_si;

// Lengths in seconds, all `assumed`: the air of a room follows its house within an hour or so.
constexpr double hour = 3600;
constexpr double longest_bridge = 3 * hour;
constexpr double reach = hour;       // of a reading with nothing beside it
constexpr double around = 6 * hour;  // readings this far outside take part
constexpr double close_by = 300;     // readings closer together are averaged over this
constexpr int most_days = 14;        // of a typical day
constexpr double ten_percent = 1.2815515655446004;  // standard normal score of 90 %

struct Row {
  double at;  // s on the clock asked for
  double kelvin;
  double humidity;
};

struct Stretch {
  double from;
  double until;
};

air::LogLine line_of(const Row& r) {
  return {units::seconds(r.at), units::kelvin(r.kelvin), units::RelativeHumidity(r.humidity)};
}

// --- the typical day ---------------------------------------------------------------------------

struct Mean {
  double kelvin = 0;
  double humidity = 0;
  int count = 0;
  void add(double k, double h) {
    kelvin += k;
    humidity += h;
    ++count;
  }
  [[nodiscard]] double mean_kelvin() const { return kelvin / count; }
  [[nodiscard]] double mean_humidity() const { return humidity / count; }
};

using ByHour = std::array<Mean, 24>;

struct TypicalDay {
  std::map<sys_days, ByHour> days;
  ByHour hours;  // means of the days' means
};

sys_seconds local_at(const WantedAir& wanted, double at) {
  const auto instant = instant_of(wanted, units::seconds(at));
  return instant + offset_at(wanted.zone, instant);
}

int hour_of(sys_seconds local) {
  return static_cast<int>((local - floor<std::chrono::days>(local)) / std::chrono::hours(1));
}

TypicalDay typical_day(const std::vector<Row>& rows, const WantedAir& wanted) {
  std::map<sys_days, ByHour> all;
  for (const Row& r : rows) {
    const auto local = local_at(wanted, r.at);
    all[floor<std::chrono::days>(local)][static_cast<std::size_t>(hour_of(local))].add(r.kelvin,
                                                                                       r.humidity);
  }
  const auto today =
      floor<std::chrono::days>(local_at(wanted, 0.5 * in_si(wanted.from + wanted.until)));
  std::vector<sys_days> dates;
  for (const auto& [date, means] : all) dates.push_back(date);
  std::stable_sort(dates.begin(), dates.end(), [&](sys_days a, sys_days b) {
    return std::chrono::abs(a - today) < std::chrono::abs(b - today);
  });
  if (dates.size() > most_days) dates.resize(most_days);
  TypicalDay typical;
  for (const auto date : dates) {
    const auto& means = typical.days[date] = all[date];
    for (std::size_t h = 0; h < means.size(); ++h) {
      if (means[h].count == 0) continue;
      typical.hours[h].add(means[h].mean_kelvin(), means[h].mean_humidity());
    }
  }
  return typical;
}

// How far a day's hour lies from the typical one: standard deviations over the hours asked for.
void spread(const TypicalDay& typical, const std::set<int>& hours, HoursAir& out) {
  double kelvin = 0;
  double humidity = 0;
  int freedom = 0;
  for (const int h : hours) {
    const auto& mean = typical.hours[static_cast<std::size_t>(h)];
    if (mean.count < 2) continue;
    freedom += mean.count - 1;
    for (const auto& [date, means] : typical.days) {
      const auto& own = means[static_cast<std::size_t>(h)];
      if (own.count == 0) continue;
      kelvin += std::pow(own.mean_kelvin() - mean.mean_kelvin(), 2);
      humidity += std::pow(own.mean_humidity() - mean.mean_humidity(), 2);
    }
  }
  if (freedom == 0) return;
  out.spread_known = true;
  out.temperature_spread = units::kelvin_step(ten_percent * std::sqrt(kelvin / freedom));
  out.humidity_spread = units::RelativeHumidity(ten_percent * std::sqrt(humidity / freedom));
}

// --- what is covered -------------------------------------------------------------------------

// Stretches of readings, each an hour longer at both ends than they are.
std::vector<Stretch> covered(const std::vector<Row>& rows) {
  std::vector<Stretch> out;
  for (const Row& r : rows) {
    const bool goes_on = !out.empty() && r.at - (out.back().until - reach) <= longest_bridge;
    if (!goes_on) out.push_back({r.at - reach, r.at + reach});
    out.back().until = r.at + reach;
  }
  return out;
}

void add_hours(HoursAir& out, double from, double until, AirBasis basis) {
  if (!(until > from)) return;
  if (!out.hours.empty() && out.hours.back().basis == basis) {
    out.hours.back().until = units::seconds(until);
  } else {
    out.hours.push_back({units::seconds(from), units::seconds(until), basis});
  }
}

// The hours asked for, told apart.
void share_out(HoursAir& out, const std::vector<Stretch>& known, double from, double until,
               AirBasis otherwise) {
  double done = from;
  for (const Stretch& s : known) {
    if (s.until <= done || s.from >= until) continue;
    add_hours(out, done, std::min(s.from, until), otherwise);
    add_hours(out, std::max(s.from, done), std::min(s.until, until), AirBasis::logged);
    done = std::max(done, s.until);
  }
  add_hours(out, done, until, otherwise);
}

// --- lines -----------------------------------------------------------------------------------

std::vector<Row> averaged(const std::vector<Row>& rows) {
  std::vector<Row> out;
  double bin = 0;
  int count = 0;
  for (const Row& r : rows) {
    const double own = std::floor(r.at / close_by);
    if (count == 0 || own != bin) {
      out.push_back({0, 0, 0});
      bin = own;
      count = 0;
    }
    Row& mean = out.back();
    ++count;
    mean.at += (r.at - mean.at) / count;
    mean.kelvin += (r.kelvin - mean.kelvin) / count;
    mean.humidity += (r.humidity - mean.humidity) / count;
  }
  return out;
}

// Points of the typical day at half past each clock hour of a stretch.
void follow(const TypicalDay& typical, const WantedAir& wanted, const Stretch& s,
            std::set<int>& hours, std::vector<Row>& rows) {
  const auto start = local_at(wanted, s.from);
  const auto into_hour = static_cast<double>((start - floor<std::chrono::hours>(start)).count());
  double at = s.from + (into_hour <= hour / 2 ? hour / 2 : 1.5 * hour) - into_hour;
  for (; at < s.until; at += hour) {
    const int h = hour_of(local_at(wanted, at));
    const auto& mean = typical.hours[static_cast<std::size_t>(h)];
    if (mean.count == 0) continue;
    hours.insert(h);
    rows.push_back({at, mean.mean_kelvin(), mean.mean_humidity()});
  }
}

// Over a long gap each reading stands for its half of it.
void step_over_gaps(std::vector<Row>& rows) {
  constexpr double apart = 0.5;  // s
  const auto count = rows.size();
  for (std::size_t i = 1; i < count; ++i) {
    const Row a = rows[i - 1];
    const Row b = rows[i];
    if (b.at - a.at <= longest_bridge) continue;
    const double middle = 0.5 * (a.at + b.at);
    rows.push_back({middle - apart, a.kelvin, a.humidity});
    rows.push_back({middle + apart, b.kelvin, b.humidity});
  }
}

bool by_time(const Row& a, const Row& b) { return a.at < b.at; }

std::vector<Row> usable(const Readings& readings, const WantedAir& wanted, HoursAir& out) {
  std::vector<Row> rows;
  for (const Reading& r : readings.rows) {
    const double celsius = units::in_celsius(r.temperature);
    if (celsius < 0 || celsius > 45) {
      ++out.beyond;
    } else {
      rows.push_back({static_cast<double>((r.at - wanted.zero).count()), in_si(r.temperature),
                      r.humidity.parts_of_one()});
    }
  }
  return rows;
}

// Only the session's own date is not another day to go by.
bool other_days(const std::vector<Row>& rows, const WantedAir& wanted) {
  const auto date = [&](double at) { return floor<std::chrono::days>(local_at(wanted, at)); };
  const auto today = date(0.5 * in_si(wanted.from + wanted.until));
  return date(rows.front().at) != today || date(rows.back().at) != today;
}

}  // namespace

HoursAir air_for(const Readings& readings, const WantedAir& wanted) {
  HoursAir out;
  const double from = in_si(wanted.from);
  const double until = in_si(wanted.until);
  const auto all = usable(readings, wanted, out);
  if (all.empty()) return out;
  std::vector<Row> near;
  for (const Row& r : all) {
    if (r.at >= from - around && r.at <= until + around) near.push_back(r);
    if (r.at >= from && r.at <= until) ++out.rows;
  }
  const auto known = covered(near);
  const bool go_by_days = wanted.typical && other_days(all, wanted);
  share_out(out, known, from, until, go_by_days ? AirBasis::typical : AirBasis::nearest);
  for (const Gap& gap : readings.gaps) {
    const double begins = static_cast<double>((gap.from - wanted.zero).count());
    const double ends = static_cast<double>((gap.until - wanted.zero).count());
    if (ends > from && begins < until && ends - begins <= longest_bridge)
      out.bridged.push_back(gap);
  }
  const bool often = readings.interval > seconds(0) && readings.interval < seconds(300);
  if (often) out.averaged = seconds(300);
  auto rows = often ? averaged(near) : near;
  if (go_by_days) {
    const auto typical = typical_day(all, wanted);
    std::set<int> hours;
    for (const AirHours& h : out.hours) {
      if (h.basis != AirBasis::typical) continue;
      // Past the ends of what is asked for, so that the lines reach them.
      const double a = in_si(h.from) - (h.from <= wanted.from ? hour : 0);
      const double b = in_si(h.until) + (h.until >= wanted.until ? hour : 0);
      follow(typical, wanted, {a, b}, hours, rows);
    }
    if (!hours.empty()) {
      for (const auto& [date, means] : typical.days) out.days.emplace_back(date);
      spread(typical, hours, out);
    }
  }
  std::stable_sort(rows.begin(), rows.end(), by_time);
  step_over_gaps(rows);
  std::stable_sort(rows.begin(), rows.end(), by_time);
  if (rows.empty()) {
    const double middle = 0.5 * (from + until);
    rows.push_back(*std::min_element(all.begin(), all.end(), [&](const Row& a, const Row& b) {
      return std::abs(a.at - middle) < std::abs(b.at - middle);
    }));
  }
  for (const Row& r : rows) {
    if (out.lines.empty() || units::seconds(r.at) > out.lines.back().at) {
      out.lines.push_back(line_of(r));
    }
  }
  return out;
}

}  // namespace dampline::session
