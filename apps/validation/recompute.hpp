// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "apps/validation/fe_path.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// Values that a case is compared in, from the solved sets of currents of one mesh.
using Quantities = std::function<std::vector<double>(const std::vector<Solved>&)>;

/// Quantities for which the program itself publishes no bar: fields at points, means, fluxes. Each is taken
/// at order p and at p + 1 on one mesh, and at p + 1 once more on an independent mesh 1.25 times as fine.
/// Published is the last; its bar is the larger of 1.5 times the change from order to order and of the change
/// from mesh to mesh, and no less than 0.3 of the root mean square of these over the case, each relative to
/// its value.
class BarredPath {
public:
  explicit BarredPath(int order, const Resolution& resolution = {});

  /// @throws std::runtime_error  a set of currents did not converge
  std::vector<Measured> values(const Device& device, double displacement,
                               const std::vector<std::vector<double>>& currents_A,
                               const Quantities& quantities);

private:
  FePath low_, high_, other_;
};

/// Signed changes may vanish by chance: no bar of one family of like values stays below 0.3 of the root mean
/// square of all.
void level_bars(std::vector<Measured>& family);

/// What the program answers for a device: forces and linkages with their own bars, on one thread.
/// @param tolerance  of the largest |force|
ForceTable swept(Device device, const std::vector<double>& displacements,
                 const std::vector<std::vector<double>>& currents_A, double tolerance = 1e-4);

}  // namespace coilpull
