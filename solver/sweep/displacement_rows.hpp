// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "meshing/mesh_section.hpp"
#include "solver/device/device.hpp"
#include "solver/measure/measurement.hpp"
#include "solver/refine/feature_map.hpp"
#include "solver/refine/order_pair.hpp"
#include "solver/sweep/mesh_origin.hpp"
#include "solver/sweep/row_limit.hpp"

namespace coilpull {

/// A row solved in more ways than the others, to learn how far orders and meshes can be trusted.
struct Anchor {
  std::size_t set;                ///< of currents
  double below_N, low_N, high_N;  ///< force at orders p - 1, p and p + 1 on the row's mesh
  double elsewhere_N;             ///< force at order p + 1 on an independent mesh, all sizes times 0.8
  std::vector<double> linkage_Wb, linkage_elsewhere_Wb;  ///< per circuit, order p + 1
};

/// A mesh that others are carried from.
struct MeshBase {
  std::shared_ptr<const Mesh> mesh;
  std::shared_ptr<const PairSolver> solver;  ///< on these triangles: on this mesh or on one carried from it
};

/// All rows of one displacement as solved, before the table gives them their bars.
struct DisplacementRows {
  std::vector<Measurement> rows;                           ///< values of order p + 1, errors NaN
  std::vector<ForceChange> force_change;                   ///< from order p to p + 1; NaN when unusable
  std::vector<std::vector<double>> linkage_difference_Wb;  ///< (circuits)(rows)
  std::vector<Anchor> anchors;                ///< first, middle and last set of currents, when asked for
  FeatureErrors features = {};                ///< the largest of all rows; empty without any
  std::vector<std::string> bodies;            ///< names of the bodies, when asked for
  MeshOrigin origin = {};                     ///< of the mesh they were solved on
  std::shared_ptr<const MeshBase> base = {};  ///< when asked for, and there is one
  int triangles = 0;
  int unknowns = 0;
};

enum class AskAnchors { no, yes };
enum class AskSlopes { no, yes };
enum class AskBodies { no, yes };
enum class AskBase { no, yes };

struct RowsPlan {
  int order = 3;           ///< p; published is p + 1
  MeshOrigin origin = {};  ///< where carrying spoils the mesh it is made at the displacement itself
  std::shared_ptr<const MeshBase> base = {};  ///< of that origin; none: is made
  AskBase keep_base = AskBase::no;
  AskAnchors anchors = AskAnchors::no;
  AskSlopes slopes = AskSlopes::no;
  AskBodies bodies = AskBodies::no;
  double row_limit_s = usual_row_limit_s;  ///< of processor time: a row that takes longer is not converged
  std::function<bool()> stop_requested = {};
  std::function<void()> on_row = {};
};

/// Meshes or carries a mesh, once, and solves every set of currents, each from the nearest ones before it,
/// from weak to strong. Never throws for numerics or meshing: the rows say what happened.
DisplacementRows solve_displacement(const Device& device, double displacement, Mesher& mesher,
                                    const RowsPlan& plan);

}  // namespace coilpull
