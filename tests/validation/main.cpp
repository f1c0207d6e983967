// dampline-validation write DOCS: writes DOCS/validation.md, its pictures and its baseline.
// dampline-validation check DOCS SCRATCH: writes them below SCRATCH and says what has drifted from
// those of DOCS; status 1 when anything has.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include "validation/baseline.hpp"
#include "validation/checks.hpp"
#include "validation/page.hpp"
#include "validation/picture.hpp"

namespace {

namespace fs = std::filesystem;
using namespace dampline::validation;

void write_file(const fs::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  if (!(out << text) || !out.flush()) throw std::runtime_error("cannot write " + path.string());
}

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return in ? text.str() : std::string();
}

void write_docs(const std::vector<Check>& checks, const fs::path& docs) {
  const auto folder = docs / "validation";
  fs::create_directories(folder);
  // Pictures of checks that are no more.
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".svg") fs::remove(entry.path());
  }
  for (const auto& check : checks) write_file(folder / (check.id + ".svg"), picture(check));
  write_file(folder / "baseline.csv", baseline(checks));
  write_file(docs / "validation.md", page(checks));
}

int compare(const std::vector<Check>& checks, const fs::path& docs, const fs::path& scratch) {
  write_docs(checks, scratch);
  auto changes = drift(checks, read_file(docs / "validation" / "baseline.csv"));
  const auto more =
      overview_drift(read_file(scratch / "validation.md"), read_file(docs / "validation.md"));
  changes.insert(changes.end(), more.begin(), more.end());
  for (const auto& check : checks) {
    const auto drawn = docs / "validation" / (check.id + ".svg");
    if (!fs::exists(drawn)) changes.push_back("no picture " + drawn.string());
  }
  for (const auto& change : changes) std::cout << change << '\n';
  if (changes.empty()) return 0;
  std::cout << "The model has moved against its outside checks. If that is meant, look at the "
               "difference and keep it:\n  cmake --build build --target validation\n";
  return 1;
}

}  // namespace

int main(int count, char** words) {
  const std::vector<std::string> arguments(words + 1, words + count);
  try {
    if (arguments.size() == 2 && arguments[0] == "write") {
      write_docs(all_checks(), arguments[1]);
      return 0;
    }
    if (arguments.size() == 3 && arguments[0] == "check") {
      return compare(all_checks(), arguments[1], arguments[2]);
    }
    std::cerr << "dampline-validation write DOCS | check DOCS SCRATCH\n";
    return 2;
  } catch (const std::exception& e) {
    std::cerr << "dampline-validation: " << e.what() << '\n';
    return 1;
  }
}
