// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/feature_map.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "solver/device/size_wishes.hpp"
#include "solver/refine/order_pair.hpp"
#include "solver/refine/resolution_for.hpp"
#include "solver/refine/spread_sizes.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

struct Judged {
  double shares_N, at_most_N;  ///< sum of the shares, and of their absolute values
  FeatureErrors errors;
  ForceChange change;
  Eigen::Index triangles;
};

Judged judge(const Device& device, const Resolution& resolution) {
  const Section section = section_at(device, device.displacements[0], resolution);
  const auto mesh = std::make_shared<Mesh>(Mesher().mesh(section));
  PairSolver solver(mesh, device, 3, resolution.outer_ratio);
  const Eigen::VectorXd currents = amperes(device.currents_A[0]);
  const OrderPair pair = solver.solve(currents);
  REQUIRE(pair.usable);
  const Eigen::VectorXd shares = solver.shares(pair, currents);
  const double change = pair.force_high_N - pair.force_low_N, at_most = shares.cwiseAbs().sum();
  // The adjoint at the enriched field replaces the secant between both: an error of the order of their
  // distance, some percent of what there is to cancel where steel is saturated.
  CHECK(std::abs(shares.sum() - change) < 0.05 * at_most);
  const FeatureMap features(device, section, resolution, *mesh, solver.places_of_shares());
  return {shares.sum(), at_most, features.errors(shares), features.change(shares), mesh->triangles.cols()};
}

}  // namespace

TEST_CASE("shares of the force add up to its change between two orders, and all go to some feature") {
  const Judged judged = judge(tube_and_rod(), resolution_for(1e-2));
  CHECK(judged.errors.corner_N.sum() + judged.errors.edge_N.sum() + judged.errors.edge_rough_N.sum() ==
        near(judged.at_most_N, 1e-12));
  CHECK(judged.errors.corner_N.size() == 4 + 2);  // of the tube, and of the rod off the axis
  CHECK(judged.errors.edge_N.size() == 3 * 4);
  CHECK(judged.errors.edge_triangles.sum() <= judged.triangles);
  // Signs are kept within a feature: its change is at most its error, and nothing is lost between features.
  CHECK(std::abs(judged.change.rough_N + judged.change.smooth_N - judged.shares_N) <
        1e-12 * judged.at_most_N);
  CHECK(judged.change.rough_apart_N <=
        std::hypot(judged.errors.corner_N.norm(), judged.errors.edge_rough_N.norm()));
  CHECK(judged.change.smooth_apart_N <= judged.errors.edge_N.norm());
  // By Cauchy and Schwarz a sum is at most the root of its number of terms longer than the norm.
  CHECK(std::abs(judged.change.rough_N) <= judged.change.rough_apart_N * std::sqrt(4 + 2 + 3 * 4));
  CHECK(std::abs(judged.change.smooth_N) <= judged.change.smooth_apart_N * std::sqrt(3 * 4));
  // Only the tube is saturable: edges of coil and magnet see no shares in steel.
  CHECK(judged.errors.edge_rough_N.sum() > 0);
  CHECK(judged.errors.edge_rough_N.tail(8).sum() == 0);
}

TEST_CASE("sizes spread over features reach the wanted error with fewer triangles than one size for all") {
  const Device device = tube_and_rod();
  const Resolution coarse = resolution_for(1e-2);
  const Judged before = judge(device, coarse);
  const Section section = section_at(device, device.displacements[0], coarse);
  const Resolution spread = spread_over_features(device, section.parts, coarse, before.errors, 0.1);
  const Judged after = judge(device, spread), even = judge(device, resolution_for(1e-3));
  CHECK(after.at_most_N < 0.3 * before.at_most_N);  // rates are those of single corners and smooth fields
  CHECK(after.triangles <
        1.1 * static_cast<double>(even.triangles) * std::max(1.0, even.at_most_N / after.at_most_N));
  // A corner that decides less is left coarser: the tube's far lower ones against those near the rod.
  const std::vector<Corner> corners = corners_of(device, section.parts, spread);
  const auto size_at = [&](Point at) {
    for (const Corner& corner : corners)
      if (corner.at == at) return corner.size;
    FAIL("no such corner");
    return 0.0;
  };
  CHECK(size_at({6e-3, 20e-3}) < 0.7 * size_at({9e-3, -20e-3}));
}

TEST_CASE("asking for a larger error coarsens, and clamps hold at any request") {
  const Device device = tube_and_rod();
  const Resolution base = resolution_for(1e-3);
  const Judged before = judge(device, base);
  const Section section = section_at(device, device.displacements[0], base);
  CHECK(judge(device, spread_over_features(device, section.parts, base, before.errors, 10)).triangles <
        before.triangles);
  for (const double ratio : {1e-12, 1e12}) {
    const Resolution far = spread_over_features(device, section.parts, base, before.errors, ratio);
    for (const auto& part : far.features.edge)
      for (const double factor : part) CHECK((factor >= 0.25 && factor <= 2));
  }
}

namespace {

/// A thick tube of steel that bends sharply at 1.6 T: between what is saturated and what is not runs a thin
/// front.
Device sharply_bent() {
  Device device = tube_and_rod();
  device.cores = {core("tube", rectangle(7.6e-3, 10.7e-3, 0, 14.2e-3), LangevinLaw{1.6, 40})};
  device.coils = {coil("coil", rectangle(11.2e-3, 12.7e-3, 1.4e-3, 11.3e-3), 400)};
  device.magnets = {magnet("rod", rectangle(0, 6.5e-3, 0, 13e-3), 0, 1)};
  device.displacements = {3e-3};
  device.currents_A = {{25}};
  return device;
}

}  // namespace

TEST_CASE("inside steel that bends sharply the error sits in few spots, and smaller triangles there do") {
  const Device device = sharply_bent();
  Resolution base = resolution_for(1e-3);
  base.at_corner = 2e-3;  // what is left is the front's
  const Judged before = judge(device, base);
  std::vector<double> sizes;
  for (const SpotError& spot : before.errors.spots) {
    CHECK((spot.at.r >= 7.6e-3 && spot.at.r <= 10.7e-3));  // only the tube is saturable
    sizes.push_back(spot.error_N);
  }
  const double all = before.errors.edge_rough_N.sum();
  CHECK(all > 5 * (before.errors.corner_N.sum() + before.errors.edge_N.sum()));
  CHECK(std::accumulate(sizes.begin(), sizes.end(), 0.0) == near(all, 1e-12));
  std::sort(sizes.rbegin(), sizes.rend());
  CHECK(std::accumulate(sizes.begin(), sizes.begin() + sizes.size() / 10, 0.0) > 0.9 * all);

  FeatureErrors without_spots = before.errors;
  without_spots.spots.clear();
  const std::vector<Region> parts = section_at(device, device.displacements[0], base).parts;
  const Judged by_spots = judge(device, spread_over_features(device, parts, base, before.errors, 0.2)),
               by_edges = judge(device, spread_over_features(device, parts, base, without_spots, 0.2));
  CHECK(by_spots.at_most_N < 0.5 * by_edges.at_most_N);
  CHECK(by_spots.triangles < by_edges.triangles);
}

TEST_CASE("spots of one mesh widen entry by entry, those of another are left out, small ones dropped") {
  const auto errors_with = [](std::vector<SpotError> spots) {
    const Eigen::VectorXd one = Eigen::VectorXd::Ones(1);
    return FeatureErrors{one, one, one, one, std::move(spots)};
  };
  FeatureErrors all = errors_with({{{1, 2}, 0.1, 5}, {{3, 4}, 0.1, 1}});
  widen(all, errors_with({{{1, 2}, 0.1, 3}, {{3, 4}, 0.1, 4e-4}}));
  CHECK(all.spots[0].error_N == 5);
  CHECK(all.spots[1].error_N == 1);
  all.spots[1].error_N = 4e-4;
  drop_small_spots(all);
  CHECK(all.spots.size() == 1);
  const FeatureErrors twice = weighed(all, 2, 3);
  CHECK(twice.spots[0].error_N == 10);
  CHECK(twice.edge_rough_N[0] == 2);
  CHECK(twice.edge_N[0] == 3);
  widen(all, errors_with({{{1, 2.5}, 0.1, 3}}));
  CHECK(all.spots.empty());
}
