#include <cmath>

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

namespace {

// q, so that widths first, first q, first q^2 ... (`count` of them, of the last only that part)
// fill `whole`. Their sum grows ever faster with q, so Newton's steps from above never pass the
// root; at most the last width alone fills the whole.
double ratio_filling(double whole, double first, int count, double part_of_last) {
  if (count < 2) return 1;
  double q = std::pow(whole / (first * part_of_last), 1.0 / (count - 1));
  for (;;) {
    double sum = part_of_last;
    double slope = 0;
    for (int i = 1; i < count; ++i) {  // Horner, from the last width to the first
      slope = slope * q + sum;
      sum = sum * q + 1;
    }
    const double next = q - (sum - whole / first) / slope;
    if (!(next < q)) return q;
    q = next;
  }
}

}  // namespace

std::vector<double> graded_cells(int count, double first, Graded graded) {
  const int run = graded == Graded::both ? (count + 1) / 2 : count;
  const bool odd = graded == Graded::both && count % 2 == 1;
  const double whole = graded == Graded::both ? 0.5 : 1.0;
  const double ratio = ratio_filling(whole, first, run, odd ? 0.5 : 1.0);
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
    w *= ratio;
  }
  double sum = 0;
  for (double s : shares) sum += s;
  for (double& s : shares) s /= sum;
  return shares;
}

}  // namespace dampline::stack
