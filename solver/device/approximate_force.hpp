// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <stdexcept>
#include <string>
#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

/// Closed formulas that can stand beside the finite elements.
enum class Approximation {
  current_sheets,  ///< coils of rectangular section and axially magnetised magnets in air; steel is ignored
  mirror_image     ///< the same beside one disc of steel, which is taken as endless and infinitely permeable
};

const char* word_for(Approximation approximation);  ///< "current_sheets", ...
std::vector<Approximation> all_approximations();

/// The device has something that the approximation cannot describe; the words say what, and what it can.
struct NotDescribed : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Force on the moving parts at one displacement [N]: x'Qx with x = (1, current of each circuit in A).
struct ForceFormula {
  Eigen::MatrixXd q;  ///< (1 + circuits, 1 + circuits)
  double at(const std::vector<double>& currents_A) const;
};

/// Sums the forces between all pairs of sources of solver/closed_form. Exact for recoil permeability 1
/// without steel; its README tells what a recoil permeability above 1 and a disc that is not endless cost. A
/// uniform background field pulls on none of these.
/// @throws NotDescribed  what is drawn, or where it stands at this displacement, is outside the approximation
ForceFormula approximate_force(const Device& device, Approximation approximation, double displacement);

}  // namespace coilpull
