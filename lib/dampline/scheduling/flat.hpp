#pragma once

#include <vector>

namespace dampline::scheduling {

/// A vector indexed by int, as every index of the engine is.
template <class T>
class Flat : public std::vector<T> {
  using Base = std::vector<T>;

 public:
  using Base::Base;
  [[nodiscard]] T& operator[](int i) { return Base::operator[](static_cast<std::size_t>(i)); }
  [[nodiscard]] const T& operator[](int i) const {
    return Base::operator[](static_cast<std::size_t>(i));
  }
  [[nodiscard]] int count() const { return static_cast<int>(Base::size()); }
  void fit(int n, const T& value = T{}) { Base::assign(static_cast<std::size_t>(n), value); }
  void grow(int n, const T& value = T{}) { Base::resize(static_cast<std::size_t>(n), value); }
};

}  // namespace dampline::scheduling
