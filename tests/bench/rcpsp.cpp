// dampline-rcpsp FILE [--conflicts N] [--seed N]: solves one published project (.sch or .sm) and
// prints what came of it as JSON. Exit status 0 when the file was read, 2 for wrong usage, 65 for a
// file that is not a project, 66 for a missing one.
#include <charconv>
#include <chrono>
#include <fstream>
#include <iostream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/read.hpp>
#include <dampline/scheduling/solve.hpp>

namespace {

using namespace dampline::scheduling;

std::string_view word(Status status) {
  switch (status) {
    case Status::optimal:
      return "optimal";
    case Status::feasible:
      return "feasible";
    case Status::infeasible:
      return "infeasible";
    case Status::unknown:
      break;
  }
  return "unknown";
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) >= 0x20) out += c;
  }
  return out + '"';
}

template <class Number>
std::optional<Number> number(std::string_view text) {
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

int usage() {
  std::cerr << "usage: dampline-rcpsp FILE [--conflicts N] [--seed N]\n";
  return 2;
}

void print(const std::string& file, const Result& result, double milliseconds) {
  std::cout << "{\"file\":" << quoted(file) << ",\"status\":\"" << word(result.status)
            << "\",\"makespan\":";
  if (result.starts.empty()) {
    std::cout << "null";
  } else {
    std::cout << result.makespan;
  }
  std::cout << ",\"bound\":" << result.bound << ",\"conflicts\":" << result.conflicts
            << ",\"ms\":" << milliseconds << ",\"starts\":[";
  for (std::size_t i = 0; i < result.starts.size(); ++i) {
    std::cout << (i == 0 ? "" : ",") << result.starts[i];
  }
  std::cout << "]}\n";
}

}  // namespace

int main(int argc, char** argv) {
  std::string file;
  Options options;
  options.conflicts = 100000000;
  for (int i = 1; i < argc; ++i) {
    const std::string_view argument = argv[i];
    if (argument == "--conflicts" && i + 1 < argc) {
      const auto n = number<long long>(argv[++i]);
      if (!n || *n < 0) return usage();
      options.conflicts = *n;
    } else if (argument == "--seed" && i + 1 < argc) {
      const auto n = number<unsigned>(argv[++i]);
      if (!n) return usage();
      options.seed = *n;
    } else if (file.empty() && !argument.empty() && argument.front() != '-') {
      file = argument;
    } else {
      return usage();
    }
  }
  if (file.empty()) return usage();
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    std::cerr << "dampline-rcpsp: cannot read " << file << '\n';
    return 66;
  }
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  try {
    const auto begin = std::chrono::steady_clock::now();
    const auto problem = file.ends_with(".sm") ? read_sm(text) : read_sch(text);
    const auto result = solve(problem, options);
    const std::chrono::duration<double, std::milli> taken =
        std::chrono::steady_clock::now() - begin;
    if (!result.starts.empty()) {
      for (const auto& wrong : check(problem, result.starts)) {
        std::cerr << "dampline-rcpsp: the schedule is wrong: " << wrong << '\n';
        return 70;
      }
    }
    print(file, result, taken.count());
  } catch (const ReadError& error) {
    std::cerr << file << ": " << error.what() << '\n';
    return 65;
  }
  return 0;
}
