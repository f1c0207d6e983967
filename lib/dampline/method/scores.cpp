#include <algorithm>
#include <cmath>

#include <boost/math/special_functions/erf.hpp>
#include <boost/random/sobol.hpp>

#include <dampline/method/scores.hpp>

namespace dampline::method {

namespace {

std::uint64_t scrambled(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31);
}

double score_of(std::uint64_t bits) {
  const double p = (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53;
  return std::sqrt(2.0) * boost::math::erf_inv(2 * p - 1);
}

}  // namespace

double held_score(double score) { return std::clamp(score, -2.5, 2.5); }

double factor_at(double spread, double score) {
  return std::exp(std::log(spread) / ten_percent_score * held_score(score));
}

std::vector<std::vector<double>> sobol_scores(
    int n, std::size_t dimensions, const std::function<std::uint64_t(std::uint64_t)>& seed_of) {
  boost::random::sobol sobol(dimensions);
  std::vector<std::uint64_t> shift;
  for (std::uint64_t d = 0; d < dimensions; ++d) shift.push_back(scrambled(seed_of(d)));
  std::vector<std::vector<double>> all(static_cast<std::size_t>(n));
  for (auto& scores : all) {
    for (const std::uint64_t by : shift) {
      scores.push_back(score_of(static_cast<std::uint64_t>(sobol()) ^ by));
    }
  }
  return all;
}

double at_share(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  const double place = share * static_cast<double>(values.size() - 1);
  const auto i = static_cast<std::size_t>(place);
  const double part = place - static_cast<double>(i);
  return i + 1 < values.size() ? values[i] + part * (values[i + 1] - values[i]) : values[i];
}

}  // namespace dampline::method
