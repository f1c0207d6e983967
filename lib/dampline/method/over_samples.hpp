#pragma once

#include <algorithm>
#include <cstddef>
#include <future>
#include <thread>
#include <vector>

namespace dampline::method {

/// work(k) for every k below `count`, shared out over the processors at hand.
///
/// Each k writes to a place of its own and reads what no other writes; then the result does not
/// depend on how many processors there are. The first exception of the lowest share is thrown on.
template <class Work>
void over_samples(std::size_t count, const Work& work) {
  const std::size_t shares =
      std::min<std::size_t>(count, std::max(1U, std::thread::hardware_concurrency()));
  const auto share = [&](std::size_t first) {
    for (std::size_t k = first; k < count; k += shares) work(k);
  };
  std::vector<std::future<void>> others;
  for (std::size_t s = 1; s < shares; ++s) {
    others.push_back(std::async(std::launch::async, share, s));
  }
  if (shares > 0) share(0);
  for (auto& other : others) other.get();
}

}  // namespace dampline::method
