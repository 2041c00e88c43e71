// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/harmonic_motion.hpp"

#include <cmath>
#include <stdexcept>

#include "solver/fem/sparse_pattern.hpp"

namespace coilpull::detail {
namespace {

/// int grad l_i . grad l_j over a triangle: e_i . e_j / (4 area), e_i the edge opposite to corner i.
Eigen::Matrix3d laplacian(const Eigen::Matrix<double, 2, 3>& corner) {
  Eigen::Matrix<double, 2, 3> opposite;
  for (int i = 0; i < 3; ++i) opposite.col(i) = corner.col((i + 2) % 3) - corner.col((i + 1) % 3);
  const double twice_area = std::abs(opposite(0, 0) * opposite(1, 1) - opposite(1, 0) * opposite(0, 1));
  return opposite.transpose() * opposite / (2 * twice_area);
}

}  // namespace

HarmonicMotion::HarmonicMotion(std::shared_ptr<const Mesh> mesh, const std::vector<char>& on_border)
    : mesh_(std::move(mesh)) {
  for (Eigen::Index t = 0; t < mesh_->triangles.cols(); ++t) {
    Eigen::Matrix<double, 2, 3> corner;
    for (int i = 0; i < 3; ++i) corner.col(i) = mesh_->nodes.col(mesh_->triangles(i, t));
    stiffness_.push_back(laplacian(corner));
  }
  std::vector<char> given = on_border;
  for (const int node : mesh_->outer_edges.reshaped()) given[node] = 1;
  along_z_ = prepare(given);
  for (Eigen::Index i = 0; i < mesh_->nodes.cols(); ++i)
    if (mesh_->nodes(0, i) == 0) given[i] = 1;
  along_r_ = prepare(given);
}

HarmonicMotion::Component HarmonicMotion::prepare(const std::vector<char>& given) const {
  Component component{std::vector<int>(given.size(), -1), 0, nullptr};
  for (std::size_t i = 0; i < given.size(); ++i)
    if (!given[i]) component.local[i] = component.unknowns++;
  if (component.unknowns == 0) return component;
  Groups groups;
  std::vector<Eigen::MatrixXd> small;
  for (Eigen::Index t = 0; t < mesh_->triangles.cols(); ++t) {
    std::vector<int> members, corners;
    for (int i = 0; i < 3; ++i) {
      const int unknown = component.local[mesh_->triangles(i, t)];
      if (unknown >= 0) members.push_back(unknown), corners.push_back(i);
    }
    if (members.empty()) continue;
    groups.add(members.data(), members.size());
    small.push_back(stiffness_[t](corners, corners));
  }
  Eigen::SparseMatrix<double> matrix = symmetric_pattern(component.unknowns, groups);
  std::vector<int> places;
  for (int g = 0; g < groups.size(); ++g) {
    places.clear();
    append_places(matrix, groups.begin(g), groups.count(g), places);
    add_at(matrix, places.data(), small[g]);
  }
  component.cholesky = std::make_unique<SparseCholesky>(matrix);
  if (!component.cholesky->factorise(matrix))
    throw std::runtime_error("the motion of the mesh could not be computed");
  return component;
}

void HarmonicMotion::extend(Eigen::Matrix2Xd& velocity) const {
  for (const Component* component : {&along_r_, &along_z_}) {
    if (component->unknowns == 0) continue;
    auto row = velocity.row(component == &along_r_ ? 0 : 1);
    Eigen::MatrixXd load = Eigen::MatrixXd::Zero(component->unknowns, 1);
    for (Eigen::Index t = 0; t < mesh_->triangles.cols(); ++t)
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) {
          const int unknown = component->local[mesh_->triangles(i, t)], other = mesh_->triangles(j, t);
          if (unknown >= 0 && component->local[other] < 0)
            load(unknown, 0) -= stiffness_[t](i, j) * row[other];
        }
    component->cholesky->forward(load);
    component->cholesky->backward(load);
    for (Eigen::Index i = 0; i < row.size(); ++i)
      if (component->local[i] >= 0) row[i] = load(component->local[i], 0);
  }
}

}  // namespace coilpull::detail
