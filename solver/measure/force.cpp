// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/force.hpp"

#include <Eigen/SparseCore>
#include <algorithm>
#include <stdexcept>

#include "materials/constants.hpp"
#include "solver/fem/space.hpp"
#include "solver/fem/sparse_pattern.hpp"
#include "solver/field/sparse_cholesky.hpp"

namespace coilpull {

using namespace detail;

namespace {

constexpr int weight_order = 2;
constexpr int weight_size = basis_size(weight_order);

/// What is prescribed for an unknown of g; the order is the strength.
enum Value : char { unset = 0, zero_layer, one_layer, zero, one };

void claim(char& slot, Value value) { slot = std::max<char>(slot, value); }

std::vector<char> prescribed_values(const Space& space, const DofMap& dofs, const std::vector<Role>& roles) {
  const int triangles = static_cast<int>(space.topology->triangles.cols());
  std::vector<char> touched(space.topology->vertices, 0),
      value(dofs.size(), unset);  // touched: bits 1 held, 2 carried
  int own[weight_size];
  for (int t = 0; t < triangles; ++t) {
    const Role role = roles.at(space.mesh->region_of[t]);
    if (role == Role::free) continue;
    dofs.of_triangle(t, own);
    for (int i = 0; i < weight_size; ++i) claim(value[own[i]], role == Role::carried ? one : zero);
    for (int i = 0; i < 3; ++i) touched[own[i]] |= role == Role::carried ? 2 : 1;
  }
  for (Eigen::Index e = 0; e < space.mesh->outer_edges.cols(); ++e) {
    int ends[weight_order + 1];
    dofs.of_edge(edge_between(*space.topology, space.mesh->outer_edges(0, e), space.mesh->outer_edges(1, e)),
                 ends);
    for (const int dof : ends) claim(value[dof], zero);
  }
  // The layers: air triangles that touch parts of one kind. Where the two kinds meet, neither layer is kept.
  std::vector<int> near(dofs.size(), 0);  // kinds of parts that the triangles of an unknown touch
  for (int t = 0; t < triangles; ++t) {
    if (roles[space.mesh->region_of[t]] != Role::free) continue;
    dofs.of_triangle(t, own);
    int touches = 0;
    for (int i = 0; i < 3; ++i) touches |= touched[own[i]];
    for (int i = 0; i < weight_size; ++i) near[own[i]] |= touches;
  }
  for (int i = 0; i < dofs.size(); ++i)
    if (near[i] == 1 || near[i] == 2) claim(value[i], near[i] == 2 ? one_layer : zero_layer);
  return value;
}

}  // namespace

ForceWeight::ForceWeight(const Space& space, const std::vector<Role>& roles) {
  const DofMap dofs(*space.topology, weight_order);
  const std::vector<char> value = prescribed_values(space, dofs, roles);
  g_ = Eigen::VectorXd::Zero(dofs.size());
  std::vector<int> local(dofs.size(), -1);
  int unknowns = 0;
  for (int i = 0; i < dofs.size(); ++i) {
    const bool is_corner = i < space.topology->vertices;  // edge functions vanish where g is constant
    if (value[i] == unset)
      local[i] = unknowns++;
    else if (is_corner && (value[i] == one || value[i] == one_layer))
      g_[i] = 1;
  }

  Groups groups;
  int own[weight_size];
  for (Eigen::Index t = 0; t < space.topology->triangles.cols(); ++t) {
    if (roles[space.mesh->region_of[t]] != Role::free) continue;
    dofs.of_triangle(static_cast<int>(t), own);
    double least = 1, most = 0;
    bool solved = false;
    for (int i = 0; i < 3; ++i) least = std::min(least, g_[own[i]]), most = std::max(most, g_[own[i]]);
    for (const int dof : own) solved |= local[dof] >= 0;
    if (solved || most > least) active_.push_back(static_cast<int>(t));
    if (!solved) continue;
    std::vector<int> free_ones;
    for (const int dof : own)
      if (local[dof] >= 0) free_ones.push_back(local[dof]);
    groups.add(free_ones.data(), free_ones.size());
  }
  if (unknowns == 0) return;

  // int |grad g|^2 dV minimal: Laplace's equation in the free air, elementary matrices through the same
  // mapping.
  Eigen::SparseMatrix<double> matrix = symmetric_pattern(unknowns, groups);
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(unknowns, 1);
  MappedRule at;
  for (const int t : active_) {
    dofs.of_triangle(t, own);
    const int n = 3;
    map_rule(space.geometry, t, n, at);
    const BasisTable& table = basis_table(weight_order, n);
    const Eigen::MatrixXd d_r = at.xi_r.matrix().asDiagonal() * table.d_xi +
                                at.eta_r.matrix().asDiagonal() * Eigen::MatrixXd(table.d_eta);
    const Eigen::MatrixXd d_z = at.xi_z.matrix().asDiagonal() * table.d_xi +
                                at.eta_z.matrix().asDiagonal() * Eigen::MatrixXd(table.d_eta);
    const Eigen::MatrixXd small = d_r.transpose() * at.weight.matrix().asDiagonal() * d_r +
                                  d_z.transpose() * at.weight.matrix().asDiagonal() * d_z;
    for (int j = 0; j < weight_size; ++j)
      for (int i = 0; i < weight_size; ++i) {
        if (local[own[i]] < 0) continue;
        if (local[own[j]] < 0)
          load(local[own[i]], 0) -= small(i, j) * g_[own[j]];
        else if (local[own[i]] >= local[own[j]])
          matrix.coeffRef(local[own[i]], local[own[j]]) += small(i, j);
      }
  }
  SparseCholesky cholesky(matrix);
  if (!cholesky.factorise(matrix)) throw std::runtime_error("the weight of the force could not be computed");
  cholesky.forward(load);
  cholesky.backward(load);
  for (int i = 0; i < dofs.size(); ++i)
    if (local[i] >= 0) g_[i] = load(local[i], 0);
}

AxialForce::AxialForce(const Space& space, const ForceWeight& weight) {
  const DofMap weight_dofs(*space.topology, weight_order);
  const int size = basis_size(space.dofs.order());
  ElementFields fields;
  int own[weight_size];
  dofs_.resize(weight.triangles().size() * size);
  for (std::size_t k = 0; k < weight.triangles().size(); ++k) {
    const int t = weight.triangles()[k];
    evaluate_fields(space, t, fields);
    const BasisTable& table = basis_table(weight_order, space.rule_of[t]);
    weight_dofs.of_triangle(t, own);
    Eigen::Matrix<double, weight_size, 1> g;
    for (int i = 0; i < weight_size; ++i) g[i] = weight.coefficients()[own[i]];
    const Eigen::ArrayXd g_xi = (table.d_xi * g).array(), g_eta = (table.d_eta * g).array();
    const Eigen::ArrayXd g_r = g_xi * fields.at.xi_r + g_eta * fields.at.eta_r;
    const Eigen::ArrayXd g_z = g_xi * fields.at.xi_z + g_eta * fields.at.eta_z;
    const Eigen::ArrayXd shear = -fields.at.weight / (2 * mu0) * g_r,
                         pull = -fields.at.weight / (2 * mu0) * g_z;
    Eigen::MatrixXd form = fields.b_r.transpose() * shear.matrix().asDiagonal() * fields.b_z;
    form += form.transpose().eval();
    form.noalias() += fields.b_z.transpose() * pull.matrix().asDiagonal() * fields.b_z;
    form.noalias() -= fields.b_r.transpose() * pull.matrix().asDiagonal() * fields.b_r;
    forms_.push_back(std::move(form));
    const Eigen::ArrayXd stiff = -fields.at.weight / mu0 * (g_r.square() + g_z.square());
    slopes_.push_back(fields.b_r.transpose() * stiff.matrix().asDiagonal() * fields.b_r);
    space.dofs.of_triangle(t, &dofs_[k * size]);
  }
}

namespace {

/// Sum of x'Mx over the triangles' small matrices.
double forms_of(const std::vector<Eigen::MatrixXd>& forms, const std::vector<int>& dofs, const Field& field) {
  double sum = 0;
  Eigen::VectorXd x;
  const int* dof = dofs.data();
  for (const Eigen::MatrixXd& form : forms) {
    x.resize(form.cols());
    for (Eigen::Index i = 0; i < x.size(); ++i) x[i] = field.coefficients[*dof++];
    sum += x.dot(form * x);
  }
  return sum;
}

}  // namespace

double AxialForce::on(const Field& field) const { return forms_of(forms_, dofs_, field); }

double AxialForce::slope_at_carried_field(const Field& field) const {
  return forms_of(slopes_, dofs_, field);
}

Eigen::VectorXd AxialForce::gradient(const Field& field) const {
  Eigen::VectorXd gradient = Eigen::VectorXd::Zero(field.coefficients.size()), x;
  const int* dof = dofs_.data();
  for (const Eigen::MatrixXd& form : forms_) {
    x.resize(form.cols());
    for (Eigen::Index i = 0; i < x.size(); ++i) x[i] = field.coefficients[dof[i]];
    x = 2 * (form * x).eval();
    for (Eigen::Index i = 0; i < x.size(); ++i) gradient[*dof++] += x[i];
  }
  return gradient;
}

}  // namespace coilpull
