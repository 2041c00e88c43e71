// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/order_pair.hpp"

#include "materials/detail/nan.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/roles.hpp"
#include "solver/measure/bodies.hpp"
#include "solver/measure/magnet_state.hpp"
#include "solver/measure/saturation.hpp"

namespace coilpull {
namespace {

FieldOptions options_for(int order, double outer_ratio) {
  FieldOptions options;
  options.order = order;
  options.outer_ratio = outer_ratio;
  return options;
}

}  // namespace

PairSolver::PairSolver(std::shared_ptr<const Mesh> mesh, const Device& device, int order, double outer_ratio,
                       const PairSolver* like)
    : mesh_(mesh),
      options_(options_for(order, outer_ratio)),
      low_(mesh, make_problem(device, mesh->region_names), options_, like ? &like->low_ : nullptr),
      high_(mesh, low_.problem(), options_for(order + 1, outer_ratio), like ? &like->high_ : nullptr),
      weight_(*high_.space(), roles_for(device.moving, mesh->region_names)),
      force_low_(*low_.space(), weight_),
      force_high_(*high_.space(), weight_) {
  int region = 0;  // they follow the order cores, coils, magnets
  for (std::size_t k = 0; k < device.cores.size(); ++k) in_cores_.emplace_back(*high_.space(), region++);
  region += static_cast<int>(device.coils.size());
  for (std::size_t k = 0; k < device.magnets.size(); ++k) in_magnets_.emplace_back(*high_.space(), region++);
}

void PairSolver::set_out_of_time(const std::function<bool()>& out_of_time) {
  low_.set_out_of_time(out_of_time);
  high_.set_out_of_time(out_of_time);
}

OrderPair PairSolver::solve(const Eigen::VectorXd& currents_A, const std::vector<WeighedPair>& near) {
  Eigen::VectorXd start = Eigen::VectorXd::Zero(low_.unknowns());
  for (const WeighedPair& other : near) start += other.weight * other.pair->low.coefficients;
  OrderPair pair{low_.solve(currents_A, start), {}, 0, 0, 0, false};

  // The enriched start: order p, plus what enrichment changed at the pairs before.
  start = Eigen::VectorXd::Zero(high_.unknowns());
  for (const WeighedPair& other : near) {
    start += other.weight * other.pair->high.coefficients;
    start.head(low_.unknowns()) -= other.weight * other.pair->low.coefficients;
  }
  start.head(low_.unknowns()) += pair.low.coefficients;
  pair.high = high_.solve(currents_A, start);
  pair.usable = pair.low.report.usable() && pair.high.report.usable();
  pair.newton_steps = pair.low.report.steps + pair.high.report.steps;
  pair.force_low_N = force_low_.on(pair.low);
  pair.force_high_N = force_high_.on(pair.high);
  return pair;
}

double PairSolver::force_one_order_below(const Eigen::VectorXd& currents_A) {
  if (!below_) {
    below_ = std::make_unique<FieldSolver>(mesh_, low_.problem(),
                                           options_for(options_.order - 1, options_.outer_ratio));
    force_below_ = std::make_unique<AxialForce>(*below_->space(), weight_);
  }
  const Field field = below_->solve(currents_A);
  return field.report.usable() ? force_below_->on(field) : nan;
}

std::vector<double> PairSolver::body_forces(const OrderPair& pair) {
  if (on_bodies_.empty())
    for (const std::vector<std::string>& body : bodies_of(*mesh_)) {
      const ForceWeight weight(*high_.space(), roles_for(body, mesh_->region_names));
      on_bodies_.emplace_back(*high_.space(), weight);
    }
  std::vector<double> forces;
  for (const AxialForce& force : on_bodies_) forces.push_back(force.on(pair.high));
  return forces;
}

std::vector<double> PairSolver::saturation(const OrderPair& pair) const {
  std::vector<double> b_T;
  for (const VolumeSampler& core : in_cores_) b_T.push_back(flux_density_percentile(pair.high, core, 0.99));
  return b_T;
}

std::vector<MagnetState> PairSolver::magnets(const Device& device, const OrderPair& pair) const {
  return magnet_states(device, in_magnets_, pair.high);
}

Eigen::VectorXd PairSolver::shares(const OrderPair& pair, const Eigen::VectorXd& currents_A) {
  Field half_way = pair.high;
  half_way.coefficients *= 0.5;
  half_way.coefficients.head(pair.low.coefficients.size()) += 0.5 * pair.low.coefficients;
  const Eigen::VectorXd adjoint =
      high_.adjoint_after_solve(pair.high, currents_A, force_high_.gradient(half_way));
  const Eigen::VectorXd imbalance = high_.energy_gradient(currents_A, pair.low.coefficients);
  const Eigen::Index added = high_.unknowns() - low_.unknowns();
  return -adjoint.tail(added).cwiseProduct(imbalance.tail(added));
}

Slopes PairSolver::slopes(const OrderPair& pair, const Eigen::VectorXd& currents_A) {
  const TangentResponse response = high_.respond(pair.high, currents_A, force_high_.gradient(pair.high));
  Slopes slopes{response.of_itself + force_high_.slope_at_carried_field(pair.high),
                {response.of_currents.begin(), response.of_currents.end()},
                {}};
  for (const auto& row : response.inductance_H.rowwise())
    slopes.inductance.emplace_back(row.begin(), row.end());
  return slopes;
}

}  // namespace coilpull
