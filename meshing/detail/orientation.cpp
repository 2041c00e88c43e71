// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/orientation.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace coilpull::detail {
namespace {

int sign(double x) { return (x > 0) - (x < 0); }

/// An exact sum of doubles, kept as parts that do not overlap, smallest first.
class Expansion {
public:
  void add(double x) {  // grow-expansion, Shewchuk 1997, figure 6
    for (int i = 0; i < count_; ++i) {
      const double sum = x + parts_[i];
      const double part_of_sum = sum - x;
      parts_[i] = (x - (sum - part_of_sum)) + (parts_[i] - part_of_sum);  // two-sum: what rounding lost
      x = sum;
    }
    parts_[count_++] = x;
  }
  void add_product(double x, double y) {
    const double product = x * y;
    add(std::fma(x, y, -product));  // two-product: what rounding lost
    add(product);
  }
  int sign_of_sum() const {  // the largest part that is not zero decides
    for (int i = count_ - 1; i >= 0; --i)
      if (parts_[i] != 0) return sign(parts_[i]);
    return 0;
  }

private:
  std::array<double, 12> parts_{};
  int count_ = 0;
};

}  // namespace

int orientation(Point a, Point b, Point c) {
  const double left = (a.r - c.r) * (b.z - c.z);
  const double right = (a.z - c.z) * (b.r - c.r);
  const double unit = std::numeric_limits<double>::epsilon() / 2;
  const double bound =
      (3 + 16 * unit) * unit * (std::abs(left) + std::abs(right));  // Shewchuk's ccwerrboundA
  if (std::abs(left - right) > bound) return sign(left - right);

  Expansion sum;
  sum.add_product(a.r, b.z);
  sum.add_product(-a.r, c.z);
  sum.add_product(-c.r, b.z);
  sum.add_product(-a.z, b.r);
  sum.add_product(a.z, c.r);
  sum.add_product(c.z, b.r);
  return sum.sign_of_sum();
}

}  // namespace coilpull::detail
