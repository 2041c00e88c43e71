// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/element_energy.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull::detail {

bool is_nonlinear(const RegionPhysics& region) {
  const SoftLaw* law = std::get_if<SoftLaw>(&region.material);
  return law && !is_linear(*law);
}

namespace {

/// H = nu (B - (r, z))
struct StraightLaw {
  double nu, r, z;
};

StraightLaw straight_law(const RegionPhysics& region) {
  if (const MagnetLaw* magnet = std::get_if<MagnetLaw>(&region.material))
    return {1 / (mu0 * magnet->recoil_permeability), magnet->remanence_r_T, magnet->remanence_z_T};
  return {evaluate(std::get<SoftLaw>(region.material), 0).dh_db, 0, 0};
}

}  // namespace

void linear_batch(const RegionPhysics& region, const ElementBatch& batch, LinearBatch& out) {
  const StraightLaw law = straight_law(region);
  const Eigen::ArrayXXd stiff = law.nu * batch.weight;
  Eigen::MatrixXd work;
  form_matrices(batch, stiff, {}, stiff, work, out.stiffness);
  out.magnet_load.resize(0, 0);
  out.constant = 0;
  if (law.r == 0 && law.z == 0) return;
  out.magnet_load.setZero(batch.dofs.rows(), batch.dofs.cols());
  test_with_fields(batch, law.r * stiff, law.z * stiff, work, out.magnet_load);
  out.constant = 0.5 * law.nu * (law.r * law.r + law.z * law.z) * batch.weight.sum();
}

Eigen::MatrixXd winding_load(const Winding& winding, const ElementBatch& batch) {
  // J dV runs over the body of revolution; A_phi of the turn is 2 pi r A_phi per turn: the same integral.
  const Eigen::MatrixXd& values = batch.table().functions;
  return values.bottomRows(batch.weight.rows()).transpose() *
         (winding.turns_per_area * batch.weight * batch.a).matrix();
}

SteelBatch::SteelBatch(const RegionPhysics& region, ElementBatch batch)
    : law_(&std::get<SoftLaw>(region.material)),
      shift_A_per_m_(region.shift_A_per_m),
      batch_(std::move(batch)) {
  for (auto* array : {&b_r_, &b_z_, &rr_, &rz_, &zz_, &h_r_, &h_z_})
    array->setZero(batch_.weight.rows(), batch_.weight.cols());
}

double SteelBatch::gradient(const Eigen::MatrixXd& own, Eigen::MatrixXd& pull) {
  flux_densities(batch_, own, slots_, b_r_, b_z_);
  double h_dot_b = 0;
  const auto respond = [&](const auto& law) {
    for (Eigen::Index q = 0; q < b_r_.size(); ++q) {
      const double b_r = b_r_.data()[q], b_z = b_z_.data()[q], dV = batch_.weight.data()[q];
      const double b2 = b_r * b_r + b_z * b_z, b = std::sqrt(b2);
      const FieldPoint at = law.field(b);
      const double nu = b > 0 ? at.h / b : at.dh_db;  // H = nu B
      const double turn = b2 > 0 ? (at.dh_db - nu) / b2 : 0.0;
      rr_.data()[q] = dV * (nu + turn * b_r * b_r);  // dH/dB = nu 1 + (dh_db - nu) b b'/|b|^2
      zz_.data()[q] = dV * (nu + turn * b_z * b_z);
      rz_.data()[q] = dV * turn * b_r * b_z;
      h_r_.data()[q] = dV * nu * b_r;
      h_z_.data()[q] = dV * (nu * b_z - shift_A_per_m_);
      h_dot_b += dV * at.h * b;
    }
  };
  std::visit(respond, *law_);
  test_with_fields(batch_, h_r_, h_z_, slots_, pull);
  return h_dot_b;
}

const Eigen::MatrixXd& SteelBatch::tangent() {
  form_matrices(batch_, rr_, rz_, zz_, pairs_, packed_);
  return packed_;
}

double SteelBatch::energy(const Eigen::MatrixXd& own) {
  flux_densities(batch_, own, slots_, b_r_, b_z_);
  double energy = -shift_A_per_m_ * (batch_.weight * b_z_).sum();
  h_r_ = (b_r_.square() + b_z_.square()).sqrt();  // |B|; H is not asked for here
  std::visit(
      [&](const auto& law) {
        for (Eigen::Index q = 0; q < h_r_.size(); ++q)
          energy += batch_.weight.data()[q] * law.energy_density(h_r_.data()[q]);
      },
      *law_);
  return energy;
}

}  // namespace coilpull::detail
