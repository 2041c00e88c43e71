// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/field/sparse_cholesky.hpp"

namespace coilpull::detail {

/// Carries the motion of the borders of a mesh smoothly into its triangles, so that they keep their shape as
/// well as they can: each component is the harmonic function (of the plane, linear triangles) that takes the
/// given values on borders and 0 on the half circle; the axis keeps r = 0.
class HarmonicMotion {
public:
  /// @param on_border  (nodes)
  HarmonicMotion(std::shared_ptr<const Mesh> mesh, const std::vector<char>& on_border);

  /// Velocities of all nodes (2, nodes) from those on borders; others are overwritten.
  void extend(Eigen::Matrix2Xd& velocity) const;

private:
  struct Component {
    std::vector<int> local;  ///< (nodes): number among the unknowns, -1: given
    int unknowns = 0;
    std::unique_ptr<SparseCholesky> cholesky;
  };
  Component prepare(const std::vector<char>& given) const;

  std::shared_ptr<const Mesh> mesh_;
  std::vector<Eigen::Matrix3d> stiffness_;  ///< (triangles)
  Component along_r_, along_z_;
};

}  // namespace coilpull::detail
