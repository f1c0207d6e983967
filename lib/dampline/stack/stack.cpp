#include <dampline/stack/stack.hpp>

namespace dampline::stack {

double water(const Layer& layer) {
  double mean = 0;
  for (std::size_t i = 0; i < layer.moisture.size(); ++i)
    mean += layer.moisture[i] * layer.share[i];
  return mean * layer.material->dry;
}

double water(const Stack& s) {
  double sum = 0;
  for (const Layer& l : s.layers) sum += water(l);
  for (const Film& f : s.films) sum += f.water;
  return sum;
}

std::vector<double> graded_cells(int count, double first, Graded graded) {
  // Widths first, first q, first q^2 ... ; q so that they fill the layer.
  const int run = graded == Graded::both ? (count + 1) / 2 : count;
  const bool odd = graded == Graded::both && count % 2 == 1;
  const double whole = graded == Graded::both ? 0.5 : 1.0;
  const auto total = [&](double q) {
    double sum = 0;
    double w = first;
    for (int i = 0; i < run; ++i) {
      sum += (odd && i == run - 1) ? 0.5 * w : w;
      w *= q;
    }
    return sum;
  };
  double low = 0.2;
  double high = 50;
  while (high - low > 1e-14 * high) {
    const double q = 0.5 * (low + high);
    if (q == low || q == high) break;
    (total(q) < whole ? low : high) = q;
  }
  std::vector<double> shares(static_cast<std::size_t>(count));
  double w = first;
  for (int i = 0; i < run; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const auto mirrored = static_cast<std::size_t>(count - 1 - i);
    if (graded == Graded::right) {
      shares[mirrored] = w;
    } else {
      shares[k] = w;
      if (graded == Graded::both) shares[mirrored] = w;
    }
    w *= low;
  }
  double sum = 0;
  for (double s : shares) sum += s;
  for (double& s : shares) s /= sum;
  return shares;
}

}  // namespace dampline::stack
