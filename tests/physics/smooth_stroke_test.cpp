// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <Eigen/QR>
#include <algorithm>
#include <cmath>

#include "solver/sweep/sweep.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

TEST_CASE(
    "steps of a fiftieth of a millimetre, each on its own mesh, leave the force smooth within its bars") {
  // 21 rows over 0.4 mm: a cubic follows the true curve to far below the bars; what is left over is mesh
  // noise.
  for (const double centre : {6e-3, 10e-3, 14e-3}) {
    Device device = tube_and_rod();
    device.displacements.clear();
    for (int i = -10; i <= 10; ++i) device.displacements.push_back(centre + 0.02e-3 * i);
    SweepOptions options;
    options.audit = false;
    const ForceTable table = sweep(device, options);
    Eigen::MatrixXd powers(21, 4);
    Eigen::VectorXd force(21);
    double narrowest = table.rows[0].force_N.error;
    for (int i = 0; i < 21; ++i) {
      const double s = (i - 10) / 10.0;
      powers.row(i) << 1, s, s * s, s * s * s;
      force[i] = table.rows[i].force_N.value;
      narrowest = std::min(narrowest, table.rows[i].force_N.error);
    }
    const Eigen::VectorXd noise = force - powers * powers.colPivHouseholderQr().solve(force);
    MESSAGE("at " << 1e3 * centre << " mm: noise up to " << noise.cwiseAbs().maxCoeff() << " N, rms "
                  << std::sqrt(noise.squaredNorm() / 21) << " N, narrowest bar " << narrowest << " N");
    CHECK(noise.cwiseAbs().maxCoeff() < narrowest);
  }
}
