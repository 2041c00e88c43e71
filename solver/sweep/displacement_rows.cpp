// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/displacement_rows.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <new>
#include <numeric>
#include <optional>

#include "materials/detail/nan.hpp"
#include "meshing/bad_section.hpp"
#include "solver/device/roles.hpp"
#include "solver/measure/bodies.hpp"
#include "solver/measure/sensor.hpp"
#include "solver/sweep/carried_mesh.hpp"
#include "solver/sweep/extrapolation.hpp"
#include "solver/sweep/row_clock.hpp"
#include "solver/sweep/vector_of.hpp"

namespace coilpull {
namespace {

/// Sets of currents from the weakest to the strongest, so that saturation grows along the way.
std::vector<std::size_t> from_weak_to_strong(const std::vector<std::vector<double>>& currents) {
  std::vector<std::size_t> order(currents.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return vector_of(currents[a]).norm() < vector_of(currents[b]).norm();
  });
  return order;
}

/// The usable pairs that a set of currents starts from.
std::vector<WeighedPair> start_for(std::size_t wanted, const std::vector<std::vector<double>>& currents,
                                   const std::vector<std::optional<OrderPair>>& solved) {
  std::vector<char> usable;
  for (const std::optional<OrderPair>& pair : solved) usable.push_back(pair && pair->usable);
  std::vector<WeighedPair> start;
  for (const Share& share : extrapolation_to(wanted, currents, usable))
    start.push_back({&*solved[share.from], share.weight});
  return start;
}

Measurement blank(const Device& device, double displacement, std::size_t set) {
  return {displacement,
          clearance_at(device, displacement),
          device.currents_A[set],
          {nan, nan},
          std::vector<Measured>(device.circuits.size(), {nan, nan}),
          nan,
          std::vector<double>(device.cores.size(), nan),
          std::vector<SensorField>(device.sensors.size(), {nan, nan})};
}

void measure(const Device& device, const OrderPair& pair, Measurement& row) {
  row.force_N.value = pair.force_high_N;
  for (std::size_t k = 0; k < device.circuits.size(); ++k) row.linkage_Wb[k].value = pair.high.linkage_Wb[k];
  row.coenergy_J = pair.high.coenergy_J;
  for (std::size_t k = 0; k < device.sensors.size(); ++k) {
    const Sensor& sensor = device.sensors[k];
    const Point at{sensor.at.r, sensor.at.z + (sensor.moves ? row.displacement : 0)};
    const FluxDensity b = sensor_field(pair.high, at, sensor.face_radius);
    row.sensors[k] = {b.r, b.z};
  }
}

void give_up(DisplacementRows& all, RowStatus status, const std::string& why) {
  for (Measurement& row : all.rows)
    if (std::isnan(row.force_N.value)) row.status = status, row.why = why;
}

/// First, middle and last set of currents, each once.
std::vector<std::size_t> anchor_sets(std::size_t sets) {
  std::vector<std::size_t> picked{0, (sets - 1) / 2, sets - 1};
  picked.erase(std::unique(picked.begin(), picked.end()), picked.end());
  return picked;
}

std::vector<double> plain(const Eigen::VectorXd& values) { return {values.begin(), values.end()}; }

/// Pairs of this solver are given up when they take longer, counted from the last start of the clock.
std::shared_ptr<RowClock> limit(PairSolver& solver, double limit_s) {
  const auto clock = std::make_shared<RowClock>(limit_s);
  solver.set_out_of_time([clock] { return clock->out_of_time(); });
  return clock;
}

std::string in_words(double limit_s) {
  char words[60];
  std::snprintf(words, sizeof words, ": %.3g s of processor time", limit_s);
  return words;
}

void solve_all(const Device& device, const Section& section, PairSolver& solver, const RowsPlan& plan,
               DisplacementRows& all) {
  const FeatureMap features(device, section, *plan.origin.resolution, solver.mesh(),
                            solver.places_of_shares());
  const std::shared_ptr<RowClock> clock = limit(solver, plan.row_limit_s);
  std::vector<std::optional<OrderPair>> solved(device.currents_A.size());
  for (const std::size_t set : from_weak_to_strong(device.currents_A)) {
    if (plan.stop_requested && plan.stop_requested())
      return give_up(all, RowStatus::stopped, "stopped before this row");
    clock->start();
    solved[set] = solver.solve(vector_of(device.currents_A[set]), start_for(set, device.currents_A, solved));
    const OrderPair& pair = *solved[set];
    Measurement& row = all.rows[set];
    row.newton_steps = pair.newton_steps;
    if (pair.usable) {
      measure(device, pair, row);
      row.b_p99_T = solver.saturation(pair);
      row.magnets = solver.magnets(device, pair);
      if (plan.bodies == AskBodies::yes) row.body_force_N = solver.body_forces(pair);
      if (plan.slopes == AskSlopes::yes) row.slopes = solver.slopes(pair, vector_of(device.currents_A[set]));
      const Eigen::VectorXd shares = solver.shares(pair, vector_of(device.currents_A[set]));
      all.force_change[set] = features.change(shares);
      // What a straight adjoint misses of the known change counts as rough.
      all.force_change[set].rough_N += pair.force_high_N - pair.force_low_N - shares.sum();
      widen(all.features, features.errors(shares));
      for (std::size_t k = 0; k < device.circuits.size(); ++k)
        all.linkage_difference_Wb[k][set] = pair.high.linkage_Wb[k] - pair.low.linkage_Wb[k];
    } else {
      const NewtonReport& report = pair.low.report.usable() ? pair.high.report : pair.low.report;
      row.status = RowStatus::not_converged;
      row.why = words_for(report.ending);
      if (report.ending == NewtonEnding::out_of_time) row.why += in_words(plan.row_limit_s);
    }
    if (plan.on_row) plan.on_row();
  }
  drop_small_spots(all.features);
  if (plan.anchors == AskAnchors::no) return;
  for (const std::size_t set : anchor_sets(solved.size())) {
    if (!solved[set] || !solved[set]->usable) continue;
    const OrderPair& pair = *solved[set];
    const Eigen::VectorXd currents = vector_of(device.currents_A[set]);
    all.anchors.push_back({set,
                           solver.force_one_order_below(currents),
                           pair.force_low_N,
                           pair.force_high_N,
                           nan,
                           plain(pair.high.linkage_Wb),
                           {}});
  }
}

std::shared_ptr<const Mesh> made_at(const Device& device, double displacement, const Resolution& resolution,
                                    Mesher& mesher) {
  return std::make_shared<const Mesh>(mesher.mesh(section_at(device, displacement, resolution)));
}

/// The anchors once more on a mesh that shares no node with the first.
void solve_elsewhere(const Device& device, double displacement, Mesher& mesher, const RowsPlan& plan,
                     DisplacementRows& all) {
  Resolution finer = *plan.origin.resolution;
  finer.fineness /= 0.8;
  PairSolver solver(made_at(device, displacement, finer, mesher), device, plan.order, finer.outer_ratio);
  const std::shared_ptr<RowClock> clock = limit(solver, plan.row_limit_s);
  std::size_t next = 0;
  for (const std::size_t set : anchor_sets(device.currents_A.size())) {
    if (std::isnan(all.force_change[set].rough_N)) continue;
    clock->start();
    const OrderPair pair = solver.solve(vector_of(device.currents_A[set]));
    if (!pair.usable) return;
    all.anchors[next].elsewhere_N = pair.force_high_N;
    all.anchors[next++].linkage_elsewhere_Wb = plain(pair.high.linkage_Wb);
  }
}

/// A displacement's mesh with its solver; sets origin and base of the rows.
std::shared_ptr<PairSolver> solver_for(const Device& device, double displacement, Mesher& mesher,
                                       const RowsPlan& plan, DisplacementRows& all) {
  const Resolution& resolution = *plan.origin.resolution;
  MeshBase base =
      plan.base ? *plan.base : MeshBase{made_at(device, plan.origin.made_at, resolution, mesher), {}};
  std::shared_ptr<const Mesh> mesh = base.mesh;
  if (displacement != plan.origin.made_at) {
    std::optional<Mesh> carried =
        carried_mesh(*mesh, roles_for(device.moving, mesh->region_names), displacement - plan.origin.made_at);
    if (carried) {
      mesh = std::make_shared<const Mesh>(std::move(*carried));
    } else {
      all.origin.made_at = displacement;
      mesh = made_at(device, displacement, resolution, mesher);
    }
  }
  auto solver =
      std::make_shared<PairSolver>(mesh, device, plan.order, resolution.outer_ratio, base.solver.get());
  if (plan.keep_base == AskBase::yes) {
    if (all.origin == plan.origin) base.solver = solver;
    all.base = std::make_shared<const MeshBase>(std::move(base));
  }
  return solver;
}

}  // namespace

DisplacementRows solve_displacement(const Device& device, double displacement, Mesher& mesher,
                                    const RowsPlan& plan) {
  DisplacementRows all;
  all.origin = plan.origin;
  const std::size_t sets = device.currents_A.size();
  for (std::size_t set = 0; set < sets; ++set) all.rows.push_back(blank(device, displacement, set));
  all.force_change.assign(sets, {nan, nan, nan, nan});
  all.linkage_difference_Wb.assign(device.circuits.size(), std::vector<double>(sets, nan));
  if (plan.stop_requested && plan.stop_requested()) {
    give_up(all, RowStatus::stopped, "stopped before this row");
    return all;
  }
  try {
    const std::shared_ptr<PairSolver> solver = solver_for(device, displacement, mesher, plan, all);
    const Mesh& mesh = solver->mesh();
    all.triangles = static_cast<int>(mesh.triangles.cols());
    all.unknowns = solver->unknowns();
    if (plan.bodies == AskBodies::yes)
      for (const std::vector<std::string>& body : bodies_of(mesh)) all.bodies.push_back(body_name(body));
    solve_all(device, section_at(device, displacement, *plan.origin.resolution), *solver, plan, all);
    if (!all.anchors.empty() && !(plan.stop_requested && plan.stop_requested()))
      solve_elsewhere(device, displacement, mesher, plan, all);
  } catch (const MeshingFailed& failed) {
    give_up(all, RowStatus::meshing_failed, failed.what());
  } catch (const BadSection& bad) {
    give_up(all, RowStatus::meshing_failed, bad.what());
  } catch (const std::bad_alloc&) {
    give_up(all, RowStatus::not_converged,
            "no memory for a mesh of " + std::to_string(all.triangles) +
                " triangles; ask for a wider tolerance or fewer threads, or draw thin steel walls thicker");
  } catch (const std::exception& other) {  // a broken matrix: this displacement's trouble only
    give_up(all, RowStatus::not_converged, other.what());
  }
  return all;
}

}  // namespace coilpull
