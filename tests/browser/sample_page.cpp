#include <fstream>
#include <string_view>

#include <dampline/report/plan_html.hpp>

#include "support/sample_plan.hpp"

// Writes the pages that the browser tests open: a day that fits, one that does not, one whose text
// tries to break out.
int main(int count, char** words) {
  using namespace dampline;
  if (count != 2) return 2;
  const std::string folder = words[1];
  const auto write = [&](const char* name, const planner::Plan& plan) {
    std::ofstream out(folder + "/" + name + ".html", std::ios::binary);
    out << report::plan_html(report::view(plan, tests::sample_clock()));
    return out.good();
  };
  return write("fits", tests::sample_plan()) && write("short", tests::short_plan()) &&
                 write("hostile", tests::hostile_plan())
             ? 0
             : 1;
}
