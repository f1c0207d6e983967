#include <algorithm>

#include <dampline/session/csv.hpp>
#include <dampline/session/log_rows.hpp>
#include <dampline/session/readings.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {
namespace {

using std::chrono::seconds;

constexpr const char* example =
    "a log looks like this: \"time;temperature [degC];humidity [%]\", then rows like "
    "\"2026-03-14 09:30;17.2;54\"";

constexpr double coldest = -40;  // degC: below it a sensor is broken or a unit is wrong
constexpr double hottest = 80;

class Reader {
 public:
  Reader(std::string_view text, std::string_view file, const ReadingsOptions& options)
      : options_(options), file_(file), text_(as_utf8(text, latin1_)) {
    if (text_.starts_with("\xEF\xBB\xBF")) text_.erase(0, 3);
  }

  std::variant<Readings, InputErrors> read();

 private:
  InputErrors error(Place where, std::string what, std::string help,
                    bool unreadable = false) const {
    auto e = at(file_, text_, where, std::move(what), std::move(help));
    e.unreadable = unreadable;
    return {std::move(e)};
  }
  std::optional<InputErrors> no_table(const LogHeader& h) const;
  std::optional<InputErrors> scales(const std::vector<LogRow>& rows);
  [[nodiscard]] double celsius(const WrittenNumber& n) const;
  [[nodiscard]] double share(const WrittenNumber& n) const;
  void keep_in_range(const Timed& timed);
  void find_gaps();
  void describe(const OrderFound& order, const Timed& timed);
  void warn();

  const ReadingsOptions& options_;
  std::string file_;
  bool latin1_ = false;
  std::string text_;
  LogHeader header_;
  Faults faults_;
  Readings out_;
  bool degrees_assumed_ = false;
  bool percent_assumed_ = false;
};

std::optional<InputErrors> Reader::no_table(const LogHeader& h) const {
  if (h.whole()) return std::nullopt;
  if (h.found() == 0 || h.line == 0) {
    return error({},
                 "no table of readings in it: no line names columns of time, temperature and "
                 "humidity",
                 example);
  }
  std::vector<std::string> missing;
  if (!h.date && !h.time) missing.emplace_back("time");
  if (!h.temperature) missing.emplace_back("temperature");
  if (!h.humidity) missing.emplace_back("humidity");
  return error({h.line, 1},
               "no column of " + units::listed(missing, "", "or") +
                   " in this header; its columns are " + units::listed(h.names, "\"", "and"),
               example);
}

double Reader::celsius(const WrittenNumber& n) const {
  const auto scale =
      n.temperature == TemperatureScale::unstated ? header_.temperature_scale : n.temperature;
  if (scale == TemperatureScale::fahrenheit) return (n.value - 32) / 1.8;
  return scale == TemperatureScale::kelvin ? n.value - 273.15 : n.value;
}

double Reader::share(const WrittenNumber& n) const {
  const auto scale = n.humidity == HumidityScale::unstated ? header_.humidity_scale : n.humidity;
  return scale == HumidityScale::fraction ? n.value : n.value / 100;
}

// Where neither header nor cells name a unit, the numbers decide or the file is refused.
std::optional<InputErrors> Reader::scales(const std::vector<LogRow>& rows) {
  constexpr double hottest_room = 45;  // degC; a room in degF reads higher
  double warmest = -1e300;
  double dampest = -1e300;
  bool bare_degrees = false;
  bool bare_share = false;
  for (const auto& row : rows) {
    bare_degrees |= row.temperature.temperature == TemperatureScale::unstated;
    bare_share |= row.humidity.humidity == HumidityScale::unstated;
    warmest = std::max(warmest, row.temperature.value);
    dampest = std::max(dampest, row.humidity.value);
  }
  const Place where{header_.line, 1};
  if (bare_degrees && header_.temperature_scale == TemperatureScale::unstated) {
    if (warmest > hottest_room) {
      return error(where,
                   "the temperature has no unit, and " + units::shortest(warmest) +
                       " may be degF or a fault",
                   "write the unit into the header: " +
                       quoted(header_.names[*header_.temperature] + " [degF]"));
    }
    degrees_assumed_ = true;
  }
  if (!bare_share || dampest > 1.5) {
    percent_assumed_ = bare_share && header_.humidity_scale == HumidityScale::unstated;
    return std::nullopt;
  }
  const auto name = header_.names[*header_.humidity];
  if (header_.humidity_scale == HumidityScale::unstated) {
    return error(
        where,
        "the humidity has no unit, and none of its numbers is above " + units::shortest(dampest) +
            ": it cannot be told whether they are per cent",
        "write into the header: " + quoted(name + " [%]") + " or " + quoted(name + " [0-1]"));
  }
  if (header_.humidity_scale == HumidityScale::percent && dampest <= 1) {
    return error(where,
                 "the humidity is said to be in per cent, and none of its numbers is above " +
                     units::shortest(dampest),
                 "if they run from 0 to 1, write into the header: " + quoted(name + " [0-1]"));
  }
  return std::nullopt;
}

void Reader::keep_in_range(const Timed& timed) {
  for (const auto& [row, at] : timed.rows) {
    const double t = celsius(row.temperature);
    const double u = share(row.humidity);
    if (!(t >= coldest && t <= hottest)) {
      faults_.add(Fault::range, {row.line, row.temperature.column},
                  "a temperature of " + units::shortest(t) + " degC is outside -40 to 80 degC");
    } else if (!(u >= 0 && u <= 1)) {
      faults_.add(Fault::range, {row.line, row.humidity.column},
                  "a humidity of " + units::shortest(100 * u) + " % is outside 0 to 100 %");
    } else {
      out_.rows.push_back({row.line, at, units::celsius(t), units::RelativeHumidity(u)});
    }
  }
}

void Reader::find_gaps() {
  std::vector<seconds> steps;
  for (std::size_t i = 1; i < out_.rows.size(); ++i) {
    steps.push_back(out_.rows[i].at - out_.rows[i - 1].at);
  }
  if (steps.empty()) return;
  auto sorted = steps;
  const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
  std::nth_element(sorted.begin(), middle, sorted.end());
  out_.interval = *middle;
  using std::chrono::hours;
  using std::chrono::minutes;
  const seconds short_of_an_hour = std::min<seconds>(3 * out_.interval, hours(1));
  const seconds longest =
      std::max({short_of_an_hour, seconds(out_.interval * 3 / 2), seconds(minutes(10))});
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] <= longest) continue;
    const auto& a = out_.rows[i];
    const auto& b = out_.rows[i + 1];
    out_.gaps.push_back({a.at, b.at, a.line, b.line});
  }
}

void Reader::describe(const OrderFound& order, const Timed& timed) {
  auto& notes = out_.notes;
  const auto say = [&](std::string sentence) { notes.push_back(std::move(sentence)); };
  if (latin1_) say("The file is not UTF-8; it is read as Latin-1.");
  if (header_.line > 1) {
    say("The table begins in line " + std::to_string(header_.line) +
        "; what stands above it is passed over.");
  }
  if (!header_.unused.empty())
    say("Columns not used: " + units::listed(header_.unused, "", "and") + ".");
  if (degrees_assumed_) say("The temperature has no unit and is taken as degC.");
  if (header_.temperature_scale == TemperatureScale::fahrenheit) {
    say("Temperatures are turned from degF into degC.");
  }
  if (percent_assumed_) say("The humidity has no unit and is taken as per cent.");
  if (!order.why.empty()) {
    const bool day_first = *order.order == DateOrder::day_first;
    say(std::string(day_first ? "Dates have the day first: " : "Dates have the month first: ") +
        order.why + ".");
  }
  if (timed.newest_first) say("The newest reading stands first: the rows are taken from the end.");
  if (timed.in_repeated_hour > 0) {
    say(std::to_string(timed.in_repeated_hour) +
        " rows lie in the hour that comes twice when the clocks are put back; the order of the "
        "rows tells the two apart.");
  }
}

std::string help_for(Fault kind) {
  switch (kind) {
    case Fault::shape:
      return "a number with a comma in it needs quotes where commas part the values";
    case Fault::time:
      return "write times like 2026-03-14 09:30";
    case Fault::skipped_time:
      return "a logger that keeps its clock all year needs: readings_zone = \"UTC\", or the zone "
             "it keeps";
    case Fault::backwards:
    case Fault::twice:
      return "look at the logger's clock if there are many of them";
    case Fault::missing:
    case Fault::number:
    case Fault::range:
      break;
  }
  return "nothing needs to be done if the rows beside it are good";
}

void Reader::warn() {
  for (const auto& [kind, rows] : faults_.rows()) {
    const auto& first = faults_.first().at(kind);
    std::string what = "row left out: " + first.what;
    if (rows.count > 1) {
      what += "; " + std::to_string(rows.count) + " rows like it: " + lines_text(rows);
    }
    out_.warnings.push_back(at(file_, text_, first.where, what, help_for(kind)));
    out_.left_out.push_back(rows);
  }
  const auto by_line = [](const auto& a, const auto& b) { return a.lines[0] < b.lines[0]; };
  std::stable_sort(out_.left_out.begin(), out_.left_out.end(), by_line);
  std::stable_sort(out_.warnings.begin(), out_.warnings.end(),
                   [](const auto& a, const auto& b) { return a.where.line < b.where.line; });
}

std::variant<Readings, InputErrors> Reader::read() {
  if (text_.find('\0') != std::string::npos || text_.starts_with("PK\x03\x04")) {
    return error({}, "this is no text: it may be a spreadsheet or UTF-16",
                 "export the readings as CSV in UTF-8", true);
  }
  const auto lines = lines_of(text_);
  header_ = find_header(lines);
  if (auto wrong = no_table(header_)) return *wrong;
  const auto below = static_cast<std::size_t>(header_.line);
  if (below < lines.size() && take_units(header_, lines[below])) ++header_.line;
  if (lines.size() - static_cast<std::size_t>(header_.line) > most_readings) {
    return error({}, "more than 300000 rows",
                 "keep the days round the session and leave out the rest");
  }
  auto rows = read_rows(lines, header_, faults_);
  if (auto wrong = scales(rows)) return *wrong;
  std::vector<WrittenTime> times;
  for (const auto& row : rows) times.push_back(row.time);
  const auto order = date_order(times, options_.day);
  if (!order.order) {
    return error({rows.front().line, rows.front().time_column},
                 "it cannot be told which number of the dates is the day: " + order.why,
                 "write the dates year first, like 2026-03-14, or let the log reach past the 12th "
                 "of a month");
  }
  auto in_time = timed(std::move(rows), *order.order, options_.zone, header_.offset, faults_);
  out_.file = file_;
  out_.zone = options_.zone;
  keep_in_range(in_time);
  if (out_.rows.empty()) {
    const auto& left = faults_.first();
    const auto why = left.empty() ? std::string("there are none below the header")
                                  : "line " + std::to_string(left.begin()->second.where.line) +
                                        ": " + left.begin()->second.what;
    return error({header_.line, 1}, "not one row can be used; " + why, example);
  }
  find_gaps();
  describe(order, in_time);
  warn();
  return std::move(out_);
}

}  // namespace

std::variant<Readings, InputErrors> read_readings(std::string_view text, std::string_view file,
                                                  const ReadingsOptions& options) {
  if (text.size() > largest_log) {
    auto e = at(file, {}, {}, "larger than 16 MiB, which is too much for a log",
                "keep the days round the session and leave out the rest");
    e.unreadable = true;
    return InputErrors{e};
  }
  return Reader(text, file, options).read();
}

int left_out(const Readings& readings) {
  int count = 0;
  for (const auto& rows : readings.left_out) count += rows.count;
  return count;
}

std::string lines_text(const LeftOut& rows) {
  std::vector<std::string> numbers;
  for (const int line : rows.lines) numbers.push_back(std::to_string(line));
  const int more = rows.count - static_cast<int>(rows.lines.size());
  if (more > 0) numbers.push_back(std::to_string(more) + " more");
  return (rows.count == 1 ? "line " : "lines ") + units::listed(numbers, "", "and");
}

}  // namespace dampline::session
