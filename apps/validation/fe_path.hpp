// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "meshing/mesh_section.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {

struct Field;

/// What the finite elements say of a device at one displacement and one set of currents.
struct Solved {
  double force_N = std::numeric_limits<double>::quiet_NaN();  ///< on the moving parts; NaN when none moves
  std::vector<double> linkage_Wb;                             ///< per circuit
  double coenergy_J;
  std::shared_ptr<const Field> field;

  double a_phi(Point at) const;  ///< [T m]
  double b_r(Point at) const;    ///< [T]
  double b_z(Point at) const;    ///< [T]
};

/// The whole chain but the sweep: device, section, mesh, problem, field, force.
class FePath {
public:
  explicit FePath(int order = 3, const Resolution& resolution = {});

  /// One mesh, one entry for each set of currents. Of the displacements only this one is looked at.
  /// @throws std::runtime_error  a set of currents did not converge
  std::vector<Solved> solve(Device device, double displacement,
                            const std::vector<std::vector<double>>& currents_A);

private:
  int order_;
  Resolution resolution_;
  Mesher mesher_;
};

// Parts of rectangular section, lengths in metres.
Coil coil_of(const std::string& name, const Box& section, double turns);  ///< a circuit of its own
Magnet magnet_of(const std::string& name, const Box& section, double remanence_T, double recoil = 1);

/// Parts in air, the last one moving when there are two or more. Circuits in the order of the coils.
Device in_air(const std::vector<Coil>& coils, const std::vector<Magnet>& magnets = {});

}  // namespace coilpull
