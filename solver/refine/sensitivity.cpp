// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/sensitivity.hpp"

#include <algorithm>
#include <cmath>

#include "materials/law_from_numbers.hpp"
#include "meshing/section.hpp"
#include "solver/device/facing_gap.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/roles.hpp"
#include "solver/device/section_at.hpp"
#include "solver/fem/element_energy.hpp"
#include "solver/fem/outer_boundary.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/measure/bodies.hpp"
#include "solver/refine/face_motion.hpp"
#include "solver/refine/force_adjoint.hpp"
#include "solver/refine/harmonic_motion.hpp"

namespace coilpull {

using namespace detail;

namespace {

/// The field of one order with everything that the slopes are taken from.
struct Order {
  FieldSolver solver;
  Field field;
  ForceAdjoint adjoint;
  double force = 0;
};

Order solve_order(const std::shared_ptr<const Mesh>& mesh, const Problem& problem,
                  const Eigen::VectorXd& currents, const FieldOptions& options,
                  const Eigen::VectorXd& start) {
  FieldSolver solver(mesh, problem, options);
  Field field = solver.solve(currents, start);
  return {std::move(solver), std::move(field), {}, 0};
}

/// @param weight  kept by the caller
void add_adjoint(Order& order, const ForceWeight& weight, const Eigen::VectorXd& currents) {
  const AxialForce force(*order.solver.space(), weight);
  order.force = force.on(order.field);
  order.adjoint = {order.solver.space().get(),
                   &order.solver.problem(),
                   &weight,
                   order.field.coefficients,
                   order.solver.adjoint(order.field, currents, force.gradient(order.field)),
                   currents};
}

/// Both orders answering alike.
struct TwoOrders {
  Order low, high;
  template <class F>
  Measured ask(const F& f) const {
    const double value = f(high.adjoint);
    return {value, std::abs(value - f(low.adjoint))};
  }
};

void add_strengths(const Device& device, const TwoOrders& orders, const Eigen::VectorXd& currents,
                   std::vector<Sensitivity>& list) {
  const std::vector<StrengthSlopes> low = strength_slopes(orders.low.adjoint),
                                    high = strength_slopes(orders.high.adjoint);
  const auto put = [&](const std::string& part, const char* quantity, std::optional<double> present,
                       std::size_t region, double StrengthSlopes::*which) {
    const double value = high[region].*which;
    list.push_back({{{part, quantity}}, {}, present, false, {value, std::abs(value - low[region].*which)}});
  };
  std::size_t region = 0;
  for (const Core& core : device.cores) {
    if (const LinearLaw* law = std::get_if<LinearLaw>(&core.law))
      put(core.name, "permeability", law->mu_r, region, &StrengthSlopes::permeability);
    else
      put(core.name, "polarization", saturation_polarization(core.law), region,
          &StrengthSlopes::polarization);
    ++region;
  }
  std::vector<Measured> of_circuit(device.circuits.size(), {0, 0});
  for (const Coil& coil : device.coils) {
    const auto k =
        std::find(device.circuits.begin(), device.circuits.end(), coil.circuit) - device.circuits.begin();
    of_circuit[k].value += high[region].ampere_turns;
    of_circuit[k].error += std::abs(high[region].ampere_turns - low[region].ampere_turns);
    if (currents[k] != 0) put(coil.name, "turns", coil.turns, region, &StrengthSlopes::ampere_turns);
    ++region;
  }
  for (const Magnet& magnet : device.magnets) {
    const double remanence = std::hypot(magnet.law.remanence_r_T, magnet.law.remanence_z_T);
    put(magnet.name, "remanence", remanence, region, &StrengthSlopes::remanence);
    put(magnet.name, "recoil permeability", magnet.law.recoil_permeability, region,
        &StrengthSlopes::permeability);
    ++region;
  }
  for (std::size_t k = 0; k < of_circuit.size(); ++k)
    if (currents[k] != 0)
      list.push_back({{{device.circuits[k], "current"}}, {}, currents[k], false, of_circuit[k]});
}

void add_background(const TwoOrders& orders, double outer_ratio, std::vector<Sensitivity>& list) {
  const double b0 = orders.low.adjoint.problem->background_bz_T;
  if (b0 == 0) return;
  const Measured slope = orders.ask([&](const ForceAdjoint& adjoint) {
    const OuterBoundary outer = outer_boundary(*adjoint.space, terms_for(outer_ratio));
    double sum = 0;
    for (std::size_t i = 0; i < outer.dofs.size(); ++i)
      sum += adjoint.mu[outer.dofs[i]] * outer.per_background_T[i];
    return b0 * sum;
  });
  list.push_back({{{"background", "B_z"}}, {}, b0, false, slope});
}

/// Shape changes of one device on one mesh.
class Shapes {
public:
  Shapes(std::shared_ptr<const Mesh> mesh, const Device& device, double displacement, const TwoOrders& orders)
      : mesh_(std::move(mesh)),
        device_(device),
        displacement_(displacement),
        orders_(orders),
        parts_(section_at(device, displacement).parts),
        motion_(*mesh_, *orders.high.adjoint.space->topology, faces_of(parts_)),
        inside_(mesh_, motion_.on_border()) {}

  void add_dimensions(std::vector<Sensitivity>& list) const {
    const std::vector<Face>& faces = motion_.faces();
    for (const std::vector<int>& group : motion_.groups()) {
      const NodeMotion motion = motion_.of_group(group);
      if (motion.nodes.isZero(1e-9)) continue;  // an arc that its neighbours hold
      Sensitivity one{{}, {}, drawn(group.front()), true, slope_of(motion)};
      for (const int face : group) {
        one.of.push_back({parts_[faces[face].part].name, dimension_name(faces, face)});
        if (!one.place && !has_key(faces, face)) one.place = place(face);
      }
      list.push_back(std::move(one));
    }
  }

  void add_shifts(std::vector<Sensitivity>& list) const {
    for (const std::vector<std::string>& body : bodies_of(*mesh_)) {
      if (is_whole_group(body)) continue;  // its shift is the displacement
      list.push_back(
          {{{body_name(body), "z of the whole"}}, {}, {}, true, slope_of(motion_.of_parts(places_of(body)))});
    }
  }

  void add_displacement_and_gap(std::vector<Sensitivity>& list) const {
    const Measured along_z = slope_of(motion_.of_parts(places_of(device_.moving)));
    list.push_back({{{body_name(device_.moving), "displacement"}}, {}, displacement_, true, along_z});
    const std::vector<Face>& faces = motion_.faces();
    const std::optional<FacingGap> gap = facing_gap(device_, parts_, faces);
    if (!gap) return;
    Measured slope = along_z;
    double sign = gap->outward.y();
    if (!gap->is_axial()) {
      for (const std::vector<int>& group : motion_.groups())
        if (std::find(group.begin(), group.end(), gap->fixed) != group.end())
          slope = slope_of(motion_.of_group(group));
      const OnFace on = locate(faces[gap->fixed], faces[gap->fixed].edges.front().from);
      sign =
          growing_direction(faces[gap->fixed], on).dot(Eigen::Vector2d(on.tangent.y(), -on.tangent.x())) > 0
              ? -1
              : 1;
    }
    slope.value *= sign;
    const std::string both =
        parts_[faces[gap->moving].part].name + " to " + parts_[faces[gap->fixed].part].name;
    list.push_back({{{both, gap->is_axial() ? "axial gap" : "gap"}}, {}, gap->width, true, slope});
  }

private:
  Measured slope_of(NodeMotion motion) const {
    inside_.extend(motion.nodes);
    return orders_.ask([&](const ForceAdjoint& adjoint) {
      const Space& space = *adjoint.space;
      return slope_along(adjoint, velocity_on(space.geometry, *mesh_, *space.topology, motion));
    });
  }
  std::vector<int> places_of(const std::vector<std::string>& names) const {
    std::vector<int> places;
    for (std::size_t p = 0; p < parts_.size(); ++p)
      if (std::find(names.begin(), names.end(), parts_[p].name) != names.end())
        places.push_back(static_cast<int>(p));
    return places;
  }
  double lift(int face) const {
    return is_moving(device_, parts_[motion_.faces()[face].part].name) ? displacement_ : 0;
  }
  std::optional<double> drawn(int face) const {
    std::optional<double> value = dimension_of(motion_.faces()[face]);
    if (value && kind_of(motion_.faces()[face]) == FaceKind::flat) *value -= lift(face);
    return value;
  }
  Edge place(int face) const {
    const std::vector<Edge>& edges = motion_.faces()[face].edges;
    const Outline whole = moved({{{edges.front().from, edges.back().to, edges.front().centre}}}, -lift(face));
    return whole.edges.front();
  }
  bool is_whole_group(const std::vector<std::string>& body) const {
    return body.size() == device_.moving.size() && is_moving(device_, body.front());
  }

  std::shared_ptr<const Mesh> mesh_;
  const Device& device_;
  double displacement_;
  const TwoOrders& orders_;
  std::vector<Region> parts_;
  FaceMotion motion_;
  HarmonicMotion inside_;
};

}  // namespace

SensitivityList sensitivities(const std::shared_ptr<const Mesh>& mesh, const Device& device,
                              double displacement, const Eigen::VectorXd& currents_A, int order,
                              double outer_ratio) {
  const Problem problem = make_problem(device, mesh->region_names);
  FieldOptions options;
  options.order = order;
  options.outer_ratio = outer_ratio;
  Order low = solve_order(mesh, problem, currents_A, options, {});
  if (!low.field.report.usable()) return {0, {}, low.field.report};
  ++options.order;
  Order high = solve_order(mesh, problem, currents_A, options, low.field.coefficients);
  SensitivityList list{0, {}, high.field.report};
  if (!high.field.report.usable()) return list;
  const ForceWeight weight(*high.solver.space(), roles_for(device.moving, mesh->region_names));
  add_adjoint(low, weight, currents_A);
  add_adjoint(high, weight, currents_A);
  list.force_N = high.force;

  const TwoOrders orders{std::move(low), std::move(high)};
  add_strengths(device, orders, currents_A, list.ranked);
  add_background(orders, outer_ratio, list.ranked);
  const Shapes shapes(mesh, device, displacement, orders);
  shapes.add_dimensions(list.ranked);
  shapes.add_shifts(list.ranked);
  shapes.add_displacement_and_gap(list.ranked);
  std::stable_sort(list.ranked.begin(), list.ranked.end(), [](const Sensitivity& a, const Sensitivity& b) {
    return std::abs(a.effect_N()) > std::abs(b.effect_N());
  });
  return list;
}

}  // namespace coilpull
