// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/force_adjoint.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"
#include "solver/fem/element_energy.hpp"

namespace coilpull::detail {
namespace {

using Eigen::ArrayXd;

/// A function of the mesh on the points of one triangle's rule.
struct Slopes2 {
  ArrayXd value, r, z;  ///< value and slopes along r and z
};

Slopes2 on_points(const BasisTable& table, const MappedRule& at, const Eigen::VectorXd& own) {
  const ArrayXd xi = (table.d_xi * own).array(), eta = (table.d_eta * own).array();
  return {(table.value * own).array(), xi * at.xi_r + eta * at.eta_r, xi * at.xi_z + eta * at.eta_z};
}

Eigen::VectorXd own_of(const Eigen::VectorXd& all, const std::vector<int>& dofs) {
  Eigen::VectorXd own(dofs.size());
  for (std::size_t i = 0; i < dofs.size(); ++i) own[i] = all[dofs[i]];
  return own;
}

/// A, B and, when points move, their slopes in time.
struct MovingField {
  ArrayXd a, b_r, b_z, da, db_r, db_z;
};

/// The motion on the points of a triangle.
struct PointMotion {
  ArrayXd r;                   ///< V_r
  ArrayXd r_r, r_z, z_r, z_z;  ///< slopes of V_r and V_z
  ArrayXd swelling;            ///< V_r/r + div V
};

MovingField field_of(const Slopes2& v, const ArrayXd& r, double r0, const PointMotion* motion) {
  const ArrayXd q = r.square() + r0 * r0;
  const ArrayXd blend = r / q, axial = 2 * r0 * r0 / q.square();
  MovingField field{blend * v.value, -blend * v.z, axial * v.value + blend * v.r, {}, {}, {}};
  if (!motion) return field;
  const ArrayXd d_blend = (1 / q - 2 * r.square() / q.square()) * motion->r;
  const ArrayXd d_axial = -4 * r * axial / q * motion->r;
  field.da = d_blend * v.value;
  field.db_r = -d_blend * v.z + blend * (motion->r_z * v.r + motion->z_z * v.z);
  field.db_z = d_axial * v.value + d_blend * v.r - blend * (motion->r_r * v.r + motion->z_r * v.z);
  return field;
}

/// H at points with B, and its slope in time when B has one.
struct MovingH {
  ArrayXd r, z, dr, dz;
};

MovingH strength_of(const RegionPhysics& region, const MovingField& b) {
  MovingH h;
  if (!is_nonlinear(region)) {
    const MagnetLaw* magnet = std::get_if<MagnetLaw>(&region.material);
    const double nu = magnet ? 1 / (mu0 * magnet->recoil_permeability)
                             : evaluate(std::get<SoftLaw>(region.material), 0).dh_db;
    h.r = nu * (magnet ? ArrayXd(b.b_r - magnet->remanence_r_T) : b.b_r);
    h.z = nu * (magnet ? ArrayXd(b.b_z - magnet->remanence_z_T) : b.b_z);
    h.dr = nu * b.db_r;
    h.dz = nu * b.db_z;
    return h;
  }
  h = {b.b_r, b.b_z, b.db_r, b.db_z};
  for (Eigen::Index i = 0; i < b.b_r.size(); ++i) {
    const double size = std::hypot(b.b_r[i], b.b_z[i]);
    const LawPoint law = evaluate(std::get<SoftLaw>(region.material), size);
    const double nu = size > 0 ? law.h / size : law.dh_db;
    const double turn = size > 0 ? (law.dh_db - nu) / (size * size) : 0.0;
    const double along = turn * (b.b_r[i] * b.db_r[i] + b.b_z[i] * b.db_z[i]);
    h.r[i] *= nu;
    h.z[i] *= nu;
    h.dr[i] = nu * h.dr[i] + along * b.b_r[i];
    h.dz[i] = nu * h.dz[i] + along * b.b_z[i];
  }
  return h;
}

/// J dH/dB / |B| of a saturable law at every point: times B, what H loses per unit of k in B = mu0 H + k
/// J(H).
ArrayXd polarization_pull(const SoftLaw& law, const MovingField& b) {
  ArrayXd pull(b.b_r.size());
  for (Eigen::Index i = 0; i < pull.size(); ++i) {
    const double size = std::hypot(b.b_r[i], b.b_z[i]);
    const LawPoint point = evaluate(law, size);
    pull[i] = size > 0 ? (size - mu0 * point.h) * point.dh_db / size : 0.0;
  }
  return pull;
}

/// Walks over the triangles with rule, dofs and tables of each at hand.
class Walk {
public:
  explicit Walk(const ForceAdjoint& adjoint)
      : adjoint_(adjoint), dofs_(basis_size(adjoint.space->dofs.order())) {}
  void to(int t) {
    const Space& space = *adjoint_.space;
    n_ = space.rule_of[t];
    map_rule(space.geometry, t, n_, at);
    space.dofs.of_triangle(t, dofs_.data());
  }
  MovingField field(const Eigen::VectorXd& all, const PointMotion* motion = nullptr) const {
    const Slopes2 v = on_points(basis_table(adjoint_.space->dofs.order(), n_), at, own_of(all, dofs_));
    return field_of(v, at.r, adjoint_.space->r0, motion);
  }
  Slopes2 function(int order, const Eigen::VectorXd& own) const {
    return on_points(basis_table(order, n_), at, own);
  }
  MappedRule at;

private:
  const ForceAdjoint& adjoint_;
  std::vector<int> dofs_;
  int n_ = 0;
};

/// Turns of a winding on the move: int A_m over its region and the region's area, with slopes in time.
struct MovingWinding {
  double linkage = 0, d_linkage = 0, area = 0, d_area = 0;
};

PointMotion motion_on(const Walk& walk, const Geometry& geometry, const std::vector<int>& dofs,
                      const Eigen::Matrix2Xd& velocity) {
  const int degree = geometry.dofs.order();
  const Slopes2 r = walk.function(degree, own_of(velocity.row(0), dofs)),
                z = walk.function(degree, own_of(velocity.row(1), dofs));
  return {r.value, r.r, r.z, z.r, z.z, r.value / walk.at.r + r.r + z.z};
}

/// Slope in time of the force's share of a triangle, at carried coefficients.
double force_slope(const MovingField& b, const Slopes2& g, const ArrayXd& weight, const PointMotion& motion) {
  const ArrayXd g_r = -(motion.r_r * g.r + motion.z_r * g.z), g_z = -(motion.r_z * g.r + motion.z_z * g.z);
  const ArrayXd shear = b.b_r * b.b_z, pull = 0.5 * (b.b_z.square() - b.b_r.square());
  const ArrayXd d_shear = b.db_r * b.b_z + b.b_r * b.db_z, d_pull = b.b_z * b.db_z - b.b_r * b.db_r;
  return -(weight * (d_shear * g.r + d_pull * g.z + shear * g_r + pull * g_z +
                     motion.swelling * (shear * g.r + pull * g.z)))
              .sum() /
         mu0;
}

}  // namespace

std::vector<StrengthSlopes> strength_slopes(const ForceAdjoint& adjoint) {
  const Space& space = *adjoint.space;
  std::vector<StrengthSlopes> slopes(adjoint.problem->regions.size());
  Walk walk(adjoint);
  for (int t = 0; t < space.topology->triangles.cols(); ++t) {
    const RegionPhysics& region = adjoint.problem->regions[space.mesh->region_of[t]];
    StrengthSlopes& own = slopes[space.mesh->region_of[t]];
    walk.to(t);
    const MovingField b = walk.field(adjoint.x), m = walk.field(adjoint.mu);
    const ArrayXd product = walk.at.weight * (b.b_r * m.b_r + b.b_z * m.b_z);
    if (region.winding)
      own.ampere_turns += adjoint.currents_A[region.winding->circuit] * region.winding->turns_per_area *
                          (walk.at.weight * m.a).sum();
    if (is_nonlinear(region)) {
      own.polarization += (product * polarization_pull(std::get<SoftLaw>(region.material), b)).sum();
      continue;
    }
    const MovingH h = strength_of(region, b);
    own.permeability += (walk.at.weight * (h.r * m.b_r + h.z * m.b_z)).sum();
    if (const MagnetLaw* magnet = std::get_if<MagnetLaw>(&region.material))
      own.remanence +=
          (walk.at.weight * (magnet->remanence_r_T * m.b_r + magnet->remanence_z_T * m.b_z)).sum() /
          (mu0 * magnet->recoil_permeability);
  }
  return slopes;
}

double slope_along(const ForceAdjoint& adjoint, const Eigen::Matrix2Xd& velocity) {
  const Space& space = *adjoint.space;
  const Geometry& geometry = space.geometry;
  constexpr int weight_order = 2;
  const DofMap weight_dofs(*space.topology, weight_order);
  std::vector<char> carries_force(space.topology->triangles.cols(), 0);
  for (const int t : adjoint.weight->triangles()) carries_force[t] = 1;
  std::vector<MovingWinding> windings(adjoint.problem->regions.size());
  std::vector<int> dofs(basis_size(geometry.dofs.order())), own_weight(basis_size(weight_order));
  Walk walk(adjoint);
  double of_force = 0, of_residual = 0;
  for (int t = 0; t < space.topology->triangles.cols(); ++t) {
    const RegionPhysics& region = adjoint.problem->regions[space.mesh->region_of[t]];
    geometry.dofs.of_triangle(t, dofs.data());
    const bool still =
        std::all_of(dofs.begin(), dofs.end(), [&](int i) { return velocity.col(i).isZero(0); });
    if (still && !region.winding) continue;
    walk.to(t);
    const PointMotion motion = motion_on(walk, geometry, dofs, velocity);
    const MovingField b = walk.field(adjoint.x, &motion), m = walk.field(adjoint.mu, &motion);
    const ArrayXd& weight = walk.at.weight;
    if (region.winding) {
      MovingWinding& winding = windings[space.mesh->region_of[t]];
      const ArrayXd plane = weight / (2 * pi * walk.at.r);
      winding.linkage += (weight * m.a).sum();
      winding.d_linkage += (weight * (m.da + m.a * motion.swelling)).sum();
      winding.area += plane.sum();
      winding.d_area += (plane * (motion.r_r + motion.z_z)).sum();
    }
    if (still) continue;
    const MovingH h = strength_of(region, b);
    of_residual += (weight * (h.dr * m.b_r + h.dz * m.b_z + h.r * m.db_r + h.z * m.db_z +
                              (h.r * m.b_r + h.z * m.b_z) * motion.swelling))
                       .sum();
    if (!carries_force[t]) continue;
    weight_dofs.of_triangle(t, own_weight.data());
    const Slopes2 g = walk.function(weight_order, own_of(adjoint.weight->coefficients(), own_weight));
    of_force += force_slope(b, g, weight, motion);
  }
  for (std::size_t k = 0; k < windings.size(); ++k) {
    const std::optional<Winding>& winding = adjoint.problem->regions[k].winding;
    if (!winding) continue;
    const MovingWinding& own = windings[k];
    of_residual -= adjoint.currents_A[winding->circuit] * winding->turns_per_area *
                   (own.d_linkage - own.linkage * own.d_area / own.area);
  }
  return of_force - of_residual;
}

}  // namespace coilpull::detail
