// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/detail/elliptic.hpp"

#include <boost/math/special_functions/ellint_1.hpp>
#include <boost/math/special_functions/ellint_2.hpp>
#include <boost/math/special_functions/ellint_3.hpp>
#include <cmath>
#include <initializer_list>

#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("K, E and Pi made of B, D and cel are those of Boost.Math") {
  // Boost takes the modulus k and, for Pi, int dt / ((1 - nu sin^2 t) Delta): p = 1 - nu.
  for (const double k : {1e-3, 0.1, 0.5, 0.9, 0.99}) {
    const double kc = std::sqrt((1 - k) * (1 + k));
    const auto [b, d] = detail::elliptic_pair(kc);
    INFO("k = " << k);
    CHECK(b + d == near(boost::math::ellint_1(k), 1e-14));
    CHECK(b + kc * kc * d == near(boost::math::ellint_2(k), 1e-14));
    for (const double p : {1e-4, 0.3, 1.0, 5.0})
      CHECK(detail::cel(kc, std::sqrt(p), 1, 1) == near(boost::math::ellint_3(k, 1 - p), 1e-13));
  }
}

TEST_CASE("near the wire D follows its logarithm") {
  // K = ln(4/kc) + kc^2/4 (ln(4/kc) - 1) + ..., E = 1 + ...: NIST DLMF 19.12.1, 19.12.2; the next terms are
  // of kc^2 ln(kc) = 3e-15 here.
  const double kc = 1e-8;
  CHECK(detail::elliptic_pair(kc).d == near(std::log(4 / kc) - 1, 1e-14));
  CHECK(detail::elliptic_pair(kc).b == near(1, 1e-14));
}
