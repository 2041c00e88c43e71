// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_current.hpp"

#include "tests/near.hpp"

namespace coilpull {

using Sets = std::vector<std::vector<double>>;

TEST_CASE("crossed circuits give every combination, the first circuit slowest") {
  CHECK(crossed({{1, 2}, {10, 20, 30}}) == Sets{{1, 10}, {1, 20}, {1, 30}, {2, 10}, {2, 20}, {2, 30}});
}

TEST_CASE("circuits together walk through their lists in step, a single number stays") {
  CHECK(side_by_side({{1, 2, 3}, {5}, {10, 20, 30}}) == Sets{{1, 5, 10}, {2, 5, 20}, {3, 5, 30}});
}

TEST_CASE("without a circuit there is one set of currents, an empty one") {
  CHECK(crossed({}) == Sets{{}});
  CHECK(side_by_side({}) == Sets{{}});
}

}  // namespace coilpull
