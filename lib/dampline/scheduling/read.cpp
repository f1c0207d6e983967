#include <charconv>
#include <vector>

#include <dampline/scheduling/read.hpp>

namespace dampline::scheduling {
namespace {

// Far above any published project; keeps a wrong head line from asking for all of the memory.
constexpr int most_activities = 100000;
constexpr int most_resources = 1000;
constexpr int largest_number = 1 << 20;

struct Line {
  int number = 0;
  std::string_view text;
};

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

/// The lines that hold something, with their numbers.
std::vector<Line> filled_lines(std::string_view text) {
  std::vector<Line> lines;
  int number = 0;
  while (!text.empty()) {
    ++number;
    const auto end = text.find('\n');
    auto line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    while (!line.empty() && is_blank(line.back())) line.remove_suffix(1);
    while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
    if (!line.empty()) lines.push_back({number, line});
  }
  return lines;
}

/// Takes whole numbers off the front of a line.
class Numbers {
 public:
  explicit Numbers(Line line) : line_(line) {}

  [[nodiscard]] int next(const char* what) {
    skip();
    return number(what);
  }

  [[nodiscard]] int next_in(const char* what, int low, int high) {
    const int value = next(what);
    if (value < low || value > high) {
      throw ReadError(line_.number, std::string(what) + " " + std::to_string(value) +
                                        " is not between " + std::to_string(low) + " and " +
                                        std::to_string(high));
    }
    return value;
  }

  [[nodiscard]] int bracketed(const char* what) {
    skip();
    expect('[', what);
    skip();
    const int value = number(what);
    skip();
    expect(']', what);
    return value;
  }

  void end() {
    skip();
    if (!line_.text.empty()) {
      throw ReadError(line_.number,
                      "more than expected: '" + std::string(line_.text.substr(0, 20)) + "'");
    }
  }

 private:
  void skip() {
    while (!line_.text.empty() && is_blank(line_.text.front())) line_.text.remove_prefix(1);
  }

  void expect(char c, const char* what) {
    if (line_.text.empty() || line_.text.front() != c) {
      throw ReadError(line_.number, "expected '" + std::string(1, c) + "' at the " + what);
    }
    line_.text.remove_prefix(1);
  }

  int number(const char* what) {
    int value = 0;
    const char* begin = line_.text.data();
    const auto [stop, error] = std::from_chars(begin, begin + line_.text.size(), value);
    if (error != std::errc{}) {
      throw ReadError(line_.number, std::string("expected a whole number as ") + what);
    }
    if (value > largest_number || value < -largest_number) {
      throw ReadError(line_.number, std::string(what) + " is too large");
    }
    line_.text.remove_prefix(static_cast<std::size_t>(stop - begin));
    return value;
  }

  Line line_;
};

/// Hands out lines in order.
class Lines {
 public:
  explicit Lines(std::string_view text) : lines_(filled_lines(text)) {}

  [[nodiscard]] bool at_end() const { return next_ == lines_.size(); }

  [[nodiscard]] Line take(const char* what) {
    if (at_end()) {
      const int last = lines_.empty() ? 1 : lines_.back().number;
      throw ReadError(last, std::string("the text ends before the ") + what);
    }
    return lines_[next_++];
  }

  /// Goes past the line that begins with `head`.
  Line after(std::string_view head) {
    while (!at_end()) {
      const Line line = lines_[next_++];
      if (line.text.substr(0, head.size()) == head) return line;
    }
    const int last = lines_.empty() ? 1 : lines_.back().number;
    throw ReadError(last, "no line begins with '" + std::string(head) + "'");
  }

 private:
  std::vector<Line> lines_;
  std::size_t next_ = 0;
};

void read_demands(Problem& problem, Numbers& numbers, int activity) {
  auto& target = problem.activities[static_cast<std::size_t>(activity)];
  target.duration = numbers.next_in("duration", 0, largest_number);
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    const int amount = numbers.next_in("demand", 0, largest_number);
    if (amount > 0) target.uses.push_back({r, amount});
  }
  numbers.end();
}

void read_capacities(Problem& problem, Line line) {
  Numbers numbers(line);
  for (auto& resource : problem.resources) {
    resource.capacity = numbers.next_in("capacity", 0, largest_number);
  }
  numbers.end();
}

void name_all(Problem& problem, int activities, int resources, int first) {
  for (int i = 0; i < activities; ++i) add_activity(problem, std::to_string(i + first), 0);
  for (int r = 0; r < resources; ++r) add_resource(problem, "R" + std::to_string(r + 1), 0);
  problem.source = 0;
  problem.sink = activities - 1;
}

}  // namespace

Problem read_sch(std::string_view text) {
  Lines lines(text);
  Numbers head(lines.take("head line"));
  const int inner = head.next_in("number of activities", 0, most_activities);
  const int resources = head.next_in("number of resources", 0, most_resources);
  (void)head.next_in("number of non-renewable resources", 0, 0);
  (void)head.next_in("number of doubly constrained resources", 0, 0);
  head.end();
  const int activities = inner + 2;
  Problem problem;
  name_all(problem, activities, resources, 0);
  for (int i = 0; i < activities; ++i) {
    Numbers numbers(lines.take("lags of every activity"));
    (void)numbers.next_in("activity", i, i);
    (void)numbers.next_in("number of modes", 1, 1);
    const int successors = numbers.next_in("number of successors", 0, most_activities);
    std::vector<int> to;
    for (int k = 0; k < successors; ++k) {
      to.push_back(numbers.next_in("successor", 0, activities - 1));
    }
    for (const int successor : to) at_least(problem, i, successor, numbers.bracketed("lag"));
    numbers.end();
  }
  for (int i = 0; i < activities; ++i) {
    Numbers numbers(lines.take("demands of every activity"));
    (void)numbers.next_in("activity", i, i);
    (void)numbers.next_in("mode", 1, 1);
    read_demands(problem, numbers, i);
  }
  if (resources > 0) read_capacities(problem, lines.take("capacities"));
  if (!lines.at_end()) throw ReadError(lines.take("end").number, "more lines than expected");
  problem.horizon = safe_horizon(problem);
  return problem;
}

Problem read_sm(std::string_view text) {
  Lines lines(text);
  const auto count = [&](std::string_view label) {
    auto line = lines.after(label);
    const auto colon = line.text.find(':');
    if (colon == std::string_view::npos) throw ReadError(line.number, "expected ':'");
    return Line{line.number, line.text.substr(colon + 1)};
  };
  const auto first_number = [](Line line, const char* what, int low, int high) {
    return Numbers(line).next_in(what, low, high);
  };
  const int activities =
      first_number(count("jobs (incl. supersource/sink )"), "number of jobs", 2, most_activities);
  const int resources =
      first_number(count("- renewable"), "number of resources", 0, most_resources);
  (void)first_number(count("- nonrenewable"), "number of non-renewable resources", 0, 0);
  (void)first_number(count("- doubly constrained"), "number of doubly constrained ones", 0, 0);
  Problem problem;
  name_all(problem, activities, resources, 1);
  lines.after("PRECEDENCE RELATIONS");
  lines.after("jobnr.");
  std::vector<std::vector<int>> followers(static_cast<std::size_t>(activities));
  for (auto& successors : followers) {
    const int job = static_cast<int>(&successors - followers.data()) + 1;
    Numbers numbers(lines.take("successors of every job"));
    (void)numbers.next_in("job", job, job);
    (void)numbers.next_in("number of modes", 1, 1);
    const int many = numbers.next_in("number of successors", 0, activities);
    for (int k = 0; k < many; ++k) {
      successors.push_back(numbers.next_in("successor", 1, activities) - 1);
    }
    numbers.end();
  }
  lines.after("REQUESTS/DURATIONS");
  lines.after("jobnr.");
  lines.after("---");
  for (int i = 0; i < activities; ++i) {
    Numbers numbers(lines.take("demands of every job"));
    (void)numbers.next_in("job", i + 1, i + 1);
    (void)numbers.next_in("mode", 1, 1);
    read_demands(problem, numbers, i);
  }
  lines.after("RESOURCEAVAILABILITIES");
  (void)lines.take("names of the resources");
  if (resources > 0) read_capacities(problem, lines.take("capacities"));
  for (int i = 0; i < activities; ++i) {
    const int duration = problem.activities[static_cast<std::size_t>(i)].duration;
    for (const int to : followers[static_cast<std::size_t>(i)]) at_least(problem, i, to, duration);
  }
  problem.horizon = safe_horizon(problem);
  return problem;
}

}  // namespace dampline::scheduling
