#include <algorithm>

#include <dampline/planner/today.hpp>

namespace dampline::planner {

std::vector<std::string> plates_today(const session::Session& s) {
  const auto& e = s.edition;
  const auto first = std::min(e.printed.size(), e.order.size());
  std::vector<std::string> left(e.order.begin() + static_cast<std::ptrdiff_t>(first),
                                e.order.end());
  const bool one = e.between == session::Between::dried && !e.sheet_each;
  if (one && left.size() > 1) left.resize(1);
  return left;
}

bool is_today(const session::Session& s, const std::string& plate) {
  const auto today = plates_today(s);
  return std::find(today.begin(), today.end(), plate) != today.end();
}

}  // namespace dampline::planner
