// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/element_energy.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull::detail {

bool is_nonlinear(const RegionPhysics& region) {
  const SoftLaw* law = std::get_if<SoftLaw>(&region.material);
  return law && !is_linear(*law);
}

void linear_element(const RegionPhysics& region, const ElementFields& fields, LinearElement& out) {
  const MagnetLaw* magnet = std::get_if<MagnetLaw>(&region.material);
  const double nu = magnet ? 1 / (mu0 * magnet->recoil_permeability)
                           : evaluate(std::get<SoftLaw>(region.material), 0).dh_db;
  const Eigen::ArrayXd& dV = fields.at.weight;
  out.stiffness.noalias() = fields.b_r.transpose() * (nu * dV).matrix().asDiagonal() * fields.b_r;
  out.stiffness.noalias() += fields.b_z.transpose() * (nu * dV).matrix().asDiagonal() * fields.b_z;
  out.magnet_load.setZero(fields.a.cols());
  out.constant = 0;
  if (!magnet) return;
  const double r = magnet->remanence_r_T, z = magnet->remanence_z_T;
  out.magnet_load.noalias() += fields.b_r.transpose() * (nu * r * dV).matrix();
  out.magnet_load.noalias() += fields.b_z.transpose() * (nu * z * dV).matrix();
  out.constant = 0.5 * nu * (r * r + z * z) * dV.sum();
}

void winding_load(const Winding& winding, const ElementFields& fields, Eigen::VectorXd& out) {
  // J dV runs over the body of revolution; A_phi of the turn is 2 pi r A_phi per turn: the same integral.
  out.noalias() = fields.a.transpose() * (winding.turns_per_area * fields.at.weight).matrix();
}

SteelElement::SteelElement(const SoftLaw& law, const ElementFields& fields)
    : law_(&law), b_r_(fields.b_r), b_z_(fields.b_z), weight_(fields.at.weight) {
  rr_.setZero(weight_.size());
  rz_ = zz_ = rr_;
}

double SteelElement::gradient(const Eigen::VectorXd& x, Eigen::VectorXd& g) {
  Eigen::VectorXd h_r = b_r_ * x, h_z = b_z_ * x;  // B first, then H dV in place
  double h_dot_b = 0;
  energy_ = 0;
  for (Eigen::Index q = 0; q < weight_.size(); ++q) {
    const double b_r = h_r[q], b_z = h_z[q], dV = weight_[q], b = std::hypot(b_r, b_z);
    const LawPoint law = evaluate(*law_, b);
    const double nu = b > 0 ? law.h / b : law.dh_db;  // H = nu B
    const double turn = b > 0 ? (law.dh_db - nu) / (b * b) : 0.0;
    rr_[q] = dV * (nu + turn * b_r * b_r);  // dH/dB = nu 1 + (dh_db - nu) b b'/|b|^2
    zz_[q] = dV * (nu + turn * b_z * b_z);
    rz_[q] = dV * turn * b_r * b_z;
    h_r[q] *= dV * nu;
    h_z[q] *= dV * nu;
    h_dot_b += dV * law.h * b;
    energy_ += dV * law.energy_density;
  }
  g.noalias() += b_r_.transpose() * h_r;
  g.noalias() += b_z_.transpose() * h_z;
  return h_dot_b;
}

void SteelElement::tangent(Eigen::MatrixXd& k) const {
  const Eigen::MatrixXd d_r = rr_.matrix().asDiagonal() * b_r_ + rz_.matrix().asDiagonal() * b_z_;
  const Eigen::MatrixXd d_z = rz_.matrix().asDiagonal() * b_r_ + zz_.matrix().asDiagonal() * b_z_;
  k.noalias() = b_r_.transpose() * d_r;
  k.noalias() += b_z_.transpose() * d_z;
}

}  // namespace coilpull::detail
