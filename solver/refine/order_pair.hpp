// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "solver/device/device.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/measure/force.hpp"
#include "solver/measure/measurement.hpp"
#include "solver/measure/volume_samples.hpp"
#include "solver/refine/force_shares.hpp"

namespace coilpull {

/// One set of currents on one mesh, solved at order p and once more in the enriched space of order p + 1, the
/// force taken with the same weight g. Published is the enriched value; the difference makes the bar.
struct OrderPair {
  Field low, high;
  double force_low_N, force_high_N;
  int newton_steps;
  bool usable;
};

/// An earlier pair of the same solver, and what it counts in a start.
struct WeighedPair {
  const OrderPair* pair;
  double weight;
};

/// Solver of such pairs on one mesh.
class PairSolver {
public:
  /// @throws what FieldSolver throws
  /// @param like  may be null: of a mesh of the same triangles at other places, see FieldSolver
  PairSolver(std::shared_ptr<const Mesh> mesh, const Device& device, int order, double outer_ratio,
             const PairSolver* like = nullptr);

  /// Pairs solved from now on are not usable where this says so, see NewtonOptions.
  void set_out_of_time(const std::function<bool()>& out_of_time);

  /// @param near  usable pairs of which the weighed sum is the start; none: starts from zero
  OrderPair solve(const Eigen::VectorXd& currents_A, const std::vector<WeighedPair>& near = {});

  /// Force at order p - 1 on the same mesh with the same weight. [N]; NaN when it did not converge
  double force_one_order_below(const Eigen::VectorXd& currents_A);

  /// Slopes at a usable pair.
  Slopes slopes(const OrderPair& pair, const Eigen::VectorXd& currents_A);

  /// Axial force on each body of the mesh [N], see measure/bodies.hpp, from the enriched field.
  std::vector<double> body_forces(const OrderPair& pair);

  /// |B| in each core that 99 % of its volume stays below [T], from the enriched field.
  std::vector<double> saturation(const OrderPair& pair) const;

  /// How far each magnet is driven, from the enriched field. @param device  the one given at first
  std::vector<MagnetState> magnets(const Device& device, const OrderPair& pair) const;

  /// What each unknown that enrichment adds changes of the force of a usable pair [N], see force_shares.hpp.
  Eigen::VectorXd shares(const OrderPair& pair, const Eigen::VectorXd& currents_A);

  /// Where these unknowns live.
  std::vector<SharePlace> places_of_shares() const {
    return places_of_unknowns(*high_.space(), high_.problem(), low_.unknowns());
  }

  const Mesh& mesh() const { return *mesh_; }
  int unknowns() const { return high_.unknowns(); }

private:
  std::shared_ptr<const Mesh> mesh_;
  FieldOptions options_;
  FieldSolver low_, high_;
  ForceWeight weight_;
  AxialForce force_low_, force_high_;
  std::vector<AxialForce> on_bodies_;
  std::vector<VolumeSampler> in_cores_, in_magnets_;
  std::unique_ptr<FieldSolver> below_;
  std::unique_ptr<AxialForce> force_below_;
};

}  // namespace coilpull
