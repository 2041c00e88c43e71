// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/field_solver.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "solver/fem/element_energy.hpp"
#include "solver/fem/sparse_pattern.hpp"
#include "solver/field/condensed.hpp"

namespace coilpull {

using namespace detail;

/// The saturable triangles on their own unknowns: those inside the steel first, then the interface.
struct FieldSolver::Inside {
  /// Saturable triangles with their local unknowns.
  struct Steel {
    SteelBatch elements;
    Eigen::MatrixXi members;  ///< (size, triangles), local unknowns
    std::vector<int> places;  ///< of the packed element matrices among the values of the tangent
  };

  Problem problem;
  FieldOptions options;
  std::shared_ptr<const Space> space;
  Condensed condensed;
  std::vector<int> unknowns;  // global numbers of the steel's unknowns
  std::vector<Steel> steel;
  Eigen::SparseMatrix<double> constant;  // S on the interface, zero elsewhere, pattern of the tangent
  Eigen::SparseMatrix<double> tangent;
  std::unique_ptr<SparseCholesky> cholesky;
  Eigen::LLT<Eigen::MatrixXd> interface_part;  // of the interface once the inner unknowns are gone
  Eigen::VectorXd factorised_for;              // currents of the field that the tangent is near; empty: none
  Eigen::MatrixXd step, own, pull;             // work

  Inside(std::shared_ptr<const Space> on, Problem given, FieldOptions chosen, const Inside* like)
      : problem(std::move(given)),
        options(std::move(chosen)),
        space(std::move(on)),
        condensed(*space, problem, terms_for(options.outer_ratio), options.most_on_surface,
                  like ? &like->condensed : nullptr) {
    gather_steel(like);
  }

  void gather_steel(const Inside* like) {
    std::vector<char> saturable;
    for (const RegionPhysics& region : problem.regions) saturable.push_back(is_nonlinear(region));
    std::vector<ElementBatch> batches = batches_of(*space, saturable);
    if (batches.empty()) return;
    const std::vector<int>& interface = condensed.interface();
    std::vector<int> local(space->dofs.size(), -1);
    for (const int dof : interface) local[dof] = 0;  // numbered below, after those inside
    for (const ElementBatch& batch : batches)
      for (const int dof : batch.dofs.reshaped())
        if (local[dof] < 0) local[dof] = static_cast<int>(unknowns.size()), unknowns.push_back(dof);
    for (const int dof : interface) local[dof] = static_cast<int>(unknowns.size()), unknowns.push_back(dof);

    Groups groups;
    for (ElementBatch& batch : batches) {
      Eigen::MatrixXi members = batch.dofs.unaryExpr([&](int dof) { return local[dof]; });
      for (const auto& of_one : members.colwise()) groups.add(of_one.data(), of_one.size());
      const RegionPhysics& region = problem.regions[batch.region];
      steel.push_back({SteelBatch(region, std::move(batch)), std::move(members), {}});
    }
    constant = symmetric_pattern(static_cast<int>(unknowns.size()), groups) +
               at_the_end(condensed.lower_stiffness());
    for (Steel& part : steel)
      for (const auto& of_one : part.members.colwise())
        append_places(constant, of_one.data(), of_one.size(), part.places);
    tangent = constant;
    cholesky =
        std::make_unique<SparseCholesky>(tangent, full_at_the_end(), like ? like->cholesky.get() : nullptr);
  }

  /// The sparse matrix of the interface among all unknowns of the steel.
  Eigen::SparseMatrix<double> at_the_end(const Eigen::SparseMatrix<double>& part) const {
    const Eigen::Index before = static_cast<Eigen::Index>(unknowns.size()) - part.cols();
    Eigen::SparseMatrix<double> all(part.rows() + before, part.cols() + before);
    all.resizeNonZeros(part.nonZeros());
    std::fill_n(all.outerIndexPtr(), before, 0);
    std::copy_n(part.outerIndexPtr(), part.cols() + 1, all.outerIndexPtr() + before);
    std::transform(part.innerIndexPtr(), part.innerIndexPtr() + part.nonZeros(), all.innerIndexPtr(),
                   [&](int row) { return row + static_cast<int>(before); });
    std::copy_n(part.valuePtr(), part.nonZeros(), all.valuePtr());
    return all;
  }

  /// How many of the last unknowns are coupled all to all: they are left to a dense factorisation.
  int full_at_the_end() const {
    return condensed.is_full() ? static_cast<int>(condensed.interface().size()) : 0;
  }

  Eigen::VectorXd sources(const Eigen::VectorXd& currents_A) const {
    Eigen::VectorXd c(problem.circuits + 1);
    c << currents_A, 1.0;
    return c;
  }

  double gradient(const Eigen::VectorXd& c, const Eigen::VectorXd& x, Eigen::VectorXd& g) {
    const Eigen::Index kept = condensed.loads().rows();
    g.setZero();
    g.tail(kept) = condensed.stiffness_times(x.tail(kept));
    double measure = std::abs(g.tail(kept).dot(x.tail(kept)));
    g.tail(kept).noalias() -= condensed.loads() * c;
    for (Steel& part : steel) {
      gather(part.members, x, own);
      pull.setZero(own.rows(), own.cols());
      measure += part.elements.gradient(own, pull);
      scatter(part.members, pull, g);
    }
    return measure;
  }

  bool factorise_tangent() {
    std::copy(constant.valuePtr(), constant.valuePtr() + constant.nonZeros(), tangent.valuePtr());
    for (Steel& part : steel) add_packed(tangent, part.places.data(), part.elements.tangent());
    if (!cholesky->factorise(tangent)) return false;
    if (full_at_the_end() == 0) return true;
    interface_part.compute(cholesky->schur());
    return interface_part.info() == Eigen::Success;
  }

  void factorise_tangent_at(const Field& field, const Eigen::VectorXd& currents_A) {
    Eigen::VectorXd x(unknowns.size()), unused(unknowns.size());
    for (Eigen::Index i = 0; i < x.size(); ++i) x[i] = field.coefficients[unknowns[i]];
    gradient(sources(currents_A), x, unused);  // sets the elements' state
    factorised_for.resize(0);
    if (!factorise_tangent()) throw std::runtime_error("the tangent at this field is not positive definite");
    factorised_for = currents_A;
  }

  bool is_factorised_for(const Eigen::VectorXd& currents_A) const {
    return factorised_for.size() == currents_A.size() && factorised_for == currents_A;
  }

  /// b becomes K^-1 b on the steel's unknowns.
  void solve_tangent(Eigen::MatrixXd& b) const {
    cholesky->forward(b);
    auto tail = b.bottomRows(full_at_the_end());
    if (tail.rows() > 0) interface_part.solveInPlace(tail);
    cholesky->backward(b);
  }

  /// K^-1 c on all unknowns, with the last factorised tangent.
  Eigen::VectorXd solve_everywhere(const Eigen::VectorXd& c) const {
    const Eigen::Index all = static_cast<Eigen::Index>(unknowns.size()), kept = condensed.loads().rows();
    const Condensed::Carried carried = condensed.carry(c);
    Eigen::MatrixXd load(all, 1);
    for (Eigen::Index i = 0; i < all - kept; ++i) load(i, 0) = c[unknowns[i]];
    load.bottomRows(kept) = carried.interface;
    if (all > 0) solve_tangent(load);
    Eigen::VectorXd mu(c.size());
    condensed.recover(carried.eliminated, load.bottomRows(kept), mu);
    for (Eigen::Index i = 0; i < all; ++i) mu[unknowns[i]] = load(i, 0);
    return mu;
  }

  void direction(const Eigen::VectorXd& g, Eigen::VectorXd& d) {
    step = -g;
    solve_tangent(step);
    d = step.col(0);
  }

  double energy(const Eigen::VectorXd& c, const Eigen::VectorXd& x) {
    const Eigen::VectorXd on_interface = x.tail(condensed.loads().rows());
    double energy = condensed.constant() - 0.5 * c.dot(condensed.source_energy() * c) +
                    0.5 * on_interface.dot(condensed.stiffness_times(on_interface)) -
                    on_interface.dot(condensed.loads() * c);
    for (Steel& part : steel) {
      gather(part.members, x, own);
      energy += part.elements.energy(own);
    }
    return energy;
  }
};

FieldSolver::FieldSolver(std::shared_ptr<const Mesh> mesh, Problem problem, FieldOptions options,
                         const FieldSolver* like)
    : FieldSolver(
          std::make_shared<const Space>(make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)),
                                                   options.order, problem.blending_length)),
          std::move(problem), std::move(options), like) {}

FieldSolver::FieldSolver(std::shared_ptr<const Space> space, Problem problem, FieldOptions options,
                         const FieldSolver* like) {
  if (problem.regions.size() != space->mesh->region_names.size())
    throw std::invalid_argument("the problem describes another number of regions than the mesh has");
  inside_ = std::make_unique<Inside>(std::move(space), std::move(problem), std::move(options),
                                     like ? like->inside_.get() : nullptr);
}
FieldSolver::~FieldSolver() = default;
FieldSolver::FieldSolver(FieldSolver&&) noexcept = default;

void FieldSolver::set_out_of_time(std::function<bool()> out_of_time) {
  inside_->options.newton.out_of_time = std::move(out_of_time);
}

const std::shared_ptr<const Space>& FieldSolver::space() const { return inside_->space; }
const Problem& FieldSolver::problem() const { return inside_->problem; }
int FieldSolver::unknowns() const { return inside_->space->dofs.size(); }

Field FieldSolver::solve(const Eigen::VectorXd& currents_A, const Eigen::VectorXd& start) {
  Inside& in = *inside_;
  const Eigen::VectorXd c = in.sources(currents_A);
  const Eigen::Index steel = static_cast<Eigen::Index>(in.unknowns.size());
  Eigen::VectorXd x = Eigen::VectorXd::Zero(steel);
  for (Eigen::Index i = 0; i < steel; ++i)
    if (in.unknowns[i] < start.size()) x[i] = start[in.unknowns[i]];

  Field field{in.space, Eigen::VectorXd::Zero(in.space->dofs.size()), {}, 0, {}};
  if (steel > 0) {
    const ConvexEnergy energy{
        [&](const Eigen::VectorXd& at, Eigen::VectorXd& g) { return in.gradient(c, at, g); },
        [&] { return in.factorise_tangent(); },
        [&](const Eigen::VectorXd& g, Eigen::VectorXd& d) { in.direction(g, d); }};
    field.report = minimise(energy, x, in.options.newton);
    in.factorised_for.resize(0);
    if (field.report.usable() && field.report.steps > 0) in.factorised_for = currents_A;
  }
  const Eigen::VectorXd on_interface = x.tail(in.condensed.loads().rows());
  const Eigen::MatrixXd& carried = in.condensed.carried_sources();
  in.condensed.recover(carried.topRows(carried.rows() - on_interface.size()) * c, on_interface,
                       field.coefficients);
  for (Eigen::Index i = 0; i < steel; ++i) field.coefficients[in.unknowns[i]] = x[i];
  field.linkage_Wb = (in.condensed.loads().transpose() * on_interface + in.condensed.source_energy() * c)
                         .head(in.problem.circuits);
  field.coenergy_J = -in.energy(c, x);
  return field;
}

TangentResponse FieldSolver::respond(const Field& field, const Eigen::VectorXd& currents_A,
                                     const Eigen::VectorXd& gradient) {
  Inside& in = *inside_;
  const Eigen::Index circuits = in.problem.circuits, steel = static_cast<Eigen::Index>(in.unknowns.size());
  const Eigen::Index kept = in.condensed.loads().rows();
  // Columns: one ampere in each circuit, then the gradient; first what was eliminated, then the steel.
  const Condensed::Carried carried = in.condensed.carry(gradient);
  Eigen::MatrixXd eliminated(carried.eliminated.size(), circuits + 1);
  eliminated << in.condensed.carried_sources().topLeftCorner(eliminated.rows(), circuits), carried.eliminated;
  Eigen::MatrixXd answers = eliminated.transpose() * eliminated;
  if (steel > 0) {
    in.factorise_tangent_at(field, currents_A);
    Eigen::MatrixXd loads = Eigen::MatrixXd::Zero(steel, circuits + 1);
    loads.bottomRows(kept) << in.condensed.loads().leftCols(circuits), carried.interface;
    Eigen::MatrixXd solved = loads;
    in.solve_tangent(solved);
    answers += loads.transpose() * solved;
  }
  return {answers.topLeftCorner(circuits, circuits), answers.topRightCorner(circuits, 1),
          answers(circuits, circuits)};
}

Eigen::VectorXd FieldSolver::energy_gradient(const Eigen::VectorXd& currents_A, const Eigen::VectorXd& x) {
  Inside& in = *inside_;
  Eigen::VectorXd all = Eigen::VectorXd::Zero(in.space->dofs.size()), g = all;
  all.head(x.size()) = x;
  in.condensed.add_gradient(in.sources(currents_A), all, g);
  for (Inside::Steel& part : in.steel) {
    const Eigen::MatrixXi dofs = part.members.unaryExpr([&](int local) { return in.unknowns[local]; });
    gather(dofs, all, in.own);
    in.pull.setZero(in.own.rows(), in.own.cols());
    part.elements.gradient(in.own, in.pull);
    scatter(dofs, in.pull, g);
  }
  return g;
}

Eigen::VectorXd FieldSolver::adjoint(const Field& field, const Eigen::VectorXd& currents_A,
                                     const Eigen::VectorXd& gradient) {
  if (!inside_->unknowns.empty()) inside_->factorise_tangent_at(field, currents_A);
  return inside_->solve_everywhere(gradient);
}

Eigen::VectorXd FieldSolver::adjoint_after_solve(const Field& field, const Eigen::VectorXd& currents_A,
                                                 const Eigen::VectorXd& gradient) {
  const bool ready = inside_->unknowns.empty() || inside_->is_factorised_for(currents_A);
  return ready ? inside_->solve_everywhere(gradient) : adjoint(field, currents_A, gradient);
}

Field solve_field(std::shared_ptr<const Mesh> mesh, const Problem& problem, const Eigen::VectorXd& currents_A,
                  const FieldOptions& options) {
  return FieldSolver(std::move(mesh), problem, options).solve(currents_A);
}

}  // namespace coilpull
