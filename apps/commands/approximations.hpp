// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/device/approximate_force.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

std::vector<std::string> names_of_approximations();  ///< what --approximation takes

/// The force by closed formulas over a whole device, made before anything is solved.
class Approximations {
public:
  /// @param names  of names_of_approximations(); twice the same counts once
  /// @throws BadDevice  one of them cannot describe the device at some displacement
  Approximations(const Device& device, const std::vector<std::string>& names, const std::string& device_file);

  /// Fills ForceTable::approximations and each row's forces.
  void add_to(ForceTable& table) const;

private:
  std::vector<std::string> names_;
  std::vector<std::vector<ForceFormula>> formulas_;  ///< (approximations, displacements)
};

}  // namespace coilpull
