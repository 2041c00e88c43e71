// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/extrapolation.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/near.hpp"

using namespace coilpull;

namespace {

using Currents = std::vector<std::vector<double>>;

/// What the start would be if set k had the solution f(k).
template <class Function>
double start(std::size_t wanted, const Currents& currents, const std::vector<char>& solved,
             const Function& f) {
  double sum = 0;
  for (const Share& share : extrapolation_to(wanted, currents, solved))
    sum += share.weight * f(currents[share.from]);
  return sum;
}

}  // namespace

TEST_CASE("four solved currents in a row give a start that is right for every cubic") {
  const Currents currents = {{-2}, {-1}, {0}, {1}, {2}, {3}};
  const auto cubic = [](const std::vector<double>& i) { return 7 - 2 * i[0] + 0.5 * std::pow(i[0], 3); };
  const double expected = cubic({3});
  // Lagrange's polynomial of degree 3 is unique; what is left is rounding of weights of 6.
  CHECK(start(5, currents, {1, 1, 1, 1, 1, 0}, cubic) == near(expected, 1e-13));
  CHECK(extrapolation_to(5, currents, {1, 1, 1, 1, 1, 0}).size() == 4);
}

TEST_CASE(
    "uneven steps that would magnify errors get a start of lower degree, and a far one the nearest set") {
  const auto wild = [](const std::vector<double>& i) { return i[0] == 0.1 ? 1.001 : 1.0; };
  const Currents currents = {{0}, {0.1}, {10}};  // a straight line would count 99 times the difference
  CHECK(start(2, currents, {1, 1, 0}, wild) == 1.001);
  const Currents even = {{0}, {0.1}, {1}, {2}};  // of 0, 0.1 and 1 only the last two, or all at most 15 times
  double sum = 0;
  for (const Share& share : extrapolation_to(3, even, {1, 1, 1, 0})) sum += std::abs(share.weight);
  CHECK(sum < 16);
  CHECK(sum > 2);
}

TEST_CASE("of crossed circuits only sets on a straight line with the wanted one count") {
  const Currents currents = {{0, 0}, {1, 1}, {2, 0}, {2, 2}};
  const std::vector<Share> shares = extrapolation_to(3, currents, {1, 1, 1, 0});
  REQUIRE(shares.size() == 2);
  CHECK(shares[0].from == 1);
  CHECK(shares[0].weight == near(2, 1e-14));
  CHECK(shares[1].from == 0);
  CHECK(shares[1].weight == near(-1, 1e-14));
}

TEST_CASE("nothing solved gives no start, and a set that is there twice starts from its twin") {
  CHECK(extrapolation_to(1, {{0}, {1}}, {0, 0}).empty());
  const std::vector<Share> twin = extrapolation_to(2, {{0}, {1}, {1}}, {1, 1, 0});
  REQUIRE(twin.size() == 1);
  CHECK(twin[0].from == 1);
  CHECK(twin[0].weight == 1);
}
