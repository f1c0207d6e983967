#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include <dampline/air/room.hpp>

namespace dampline::air {

using units::in_si;

namespace {

constexpr double most_kelvin = 0.5;
constexpr double most_humidity = 0.02;

struct Air {
  double kelvin;
  double humidity;
};

Air of(const LogLine& r) { return {in_si(r.temperature), r.humidity.parts_of_one()}; }

Air mixed(const Air& a, const Air& b, double share) {
  return {a.kelvin + share * (b.kelvin - a.kelvin), a.humidity + share * (b.humidity - a.humidity)};
}

Air air_at(const std::vector<LogLine>& readings, double seconds) {
  const auto after = std::upper_bound(readings.begin(), readings.end(), seconds,
                                      [](double t, const LogLine& r) { return t < in_si(r.at); });
  if (after == readings.begin()) return of(readings.front());
  if (after == readings.end()) return of(readings.back());
  const LogLine& before = *(after - 1);
  const double length = in_si(after->at) - in_si(before.at);
  return mixed(of(before), of(*after), (seconds - in_si(before.at)) / length);
}

// Straight pieces between `from` and `until`, as their ends.
std::vector<double> corners(const std::vector<LogLine>& readings, double from, double until) {
  std::vector<double> times{from};
  const auto first = std::upper_bound(readings.begin(), readings.end(), from,
                                      [](double t, const LogLine& r) { return t < in_si(r.at); });
  for (auto r = first; r != readings.end() && in_si(r->at) < until; ++r) {
    times.push_back(in_si(r->at));
  }
  times.push_back(until);
  return times;
}

double drift(const Air& a, const Air& b) {
  return std::max(std::abs(a.kelvin - b.kelvin) / most_kelvin,
                  std::abs(a.humidity - b.humidity) / most_humidity);
}

}  // namespace

Room::Room(const Climate& base, std::vector<LogLine> readings)
    : base_(base), readings_(std::move(readings)) {
  const auto not_later = [](const LogLine& a, const LogLine& b) { return !(a.at < b.at); };
  if (std::adjacent_find(readings_.begin(), readings_.end(), not_later) != readings_.end()) {
    throw std::invalid_argument("readings of a room must rise in time");
  }
}

Room Room::starting(units::Duration later) const {
  Room room = *this;
  for (LogLine& r : room.readings_) r.at -= later;
  return room;
}

Room Room::moved(units::RelativeHumidity by) const {
  constexpr double dampest = 0.98;
  const auto move = [&](units::RelativeHumidity& humidity) {
    const double was = humidity.parts_of_one();
    humidity =
        units::RelativeHumidity(std::clamp(was + by.parts_of_one(), 0.0, std::max(dampest, was)));
  };
  Room room = *this;
  move(room.base_.humidity);
  for (LogLine& r : room.readings_) move(r.humidity);
  return room;
}

Climate Room::at(units::Duration time) const {
  if (readings_.empty()) return base_;
  const Air air = air_at(readings_, in_si(time));
  Climate climate = base_;
  climate.temperature = units::kelvin(air.kelvin);
  climate.humidity = units::RelativeHumidity(air.humidity);
  return climate;
}

std::vector<Spell> Room::spells(units::Duration from, units::Duration until) const {
  if (readings_.empty() || !(from < until)) return {{from, until, base_}};
  std::vector<Spell> spells;
  const auto add = [&](double a, double b) {
    spells.push_back({units::seconds(a), units::seconds(b), at(units::seconds(0.5 * (a + b)))});
  };
  const auto times = corners(readings_, in_si(from), in_si(until));
  double start = times.front();  // of the spell being gathered
  double held = start;           // it is known to be steady so far
  for (std::size_t i = 1; i < times.size(); ++i) {
    const Air a = air_at(readings_, times[i - 1]);
    const Air b = air_at(readings_, times[i]);
    if (drift(air_at(readings_, start), b) <= 1) {
      held = times[i];
      continue;
    }
    if (held > start) add(start, held);
    const int parts = std::max(1, static_cast<int>(std::ceil(drift(a, b))));
    const double length = (times[i] - times[i - 1]) / parts;
    for (int k = 0; k < parts; ++k) {
      add(times[i - 1] + k * length, k + 1 < parts ? times[i - 1] + (k + 1) * length : times[i]);
    }
    start = held = times[i];
  }
  if (held > start) add(start, held);
  return spells;
}

Climate Room::mean(units::Duration from, units::Duration until) const {
  if (readings_.empty() || !(from < until)) return at(from);
  const auto times = corners(readings_, in_si(from), in_si(until));
  Air sum{0, 0};
  for (std::size_t i = 1; i < times.size(); ++i) {
    const Air middle = mixed(air_at(readings_, times[i - 1]), air_at(readings_, times[i]), 0.5);
    sum.kelvin += middle.kelvin * (times[i] - times[i - 1]);
    sum.humidity += middle.humidity * (times[i] - times[i - 1]);
  }
  const double length = times.back() - times.front();
  Climate climate = base_;
  climate.temperature = units::kelvin(sum.kelvin / length);
  climate.humidity = units::RelativeHumidity(sum.humidity / length);
  return climate;
}

}  // namespace dampline::air
