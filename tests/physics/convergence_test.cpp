// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <Eigen/SparseCholesky>
#include <cmath>

#include "solver/fem/space.hpp"
#include "solver/fem/sparse_pattern.hpp"
#include "tests/near.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

constexpr double a = 8e-3;

/// A square of n x n cells, two triangles each, touching the axis.
std::shared_ptr<Mesh> square(int n) {
  auto mesh = std::make_shared<Mesh>();
  const double side = 10e-3;
  mesh->nodes.resize(2, (n + 1) * (n + 1));
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= n; ++j) mesh->nodes.col(i * (n + 1) + j) << side * i / n, side * j / n - 3e-3;
  mesh->triangles.resize(3, 2 * n * n);
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      const int corner = i * (n + 1) + j;
      mesh->triangles.col(2 * (i * n + j)) << corner, corner + n + 1, corner + 1;
      mesh->triangles.col(2 * (i * n + j) + 1) << corner + 1, corner + n + 1, corner + n + 2;
    }
  mesh->region_of = Eigen::VectorXi::Zero(2 * n * n);
  mesh->region_names = {"air"};
  return mesh;
}

/// B of A_phi = r exp(-(r^2 + z^2) / a^2): smooth, and no polynomial.
void exact(double r, double z, double& b_r, double& b_z) {
  const double e = std::exp(-(r * r + z * z) / (a * a));
  b_r = 2 * r * z / (a * a) * e;
  b_z = (2 - 2 * r * r / (a * a)) * e;
}

/// Relative L2 error of B of the best approximation in the energy norm, as a field problem finds it.
double error(int order, int cells, double r0) {
  const auto mesh = square(cells);
  const Space space = make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)), order, r0);
  const int size = basis_size(order), triangles = static_cast<int>(mesh->triangles.cols());
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd load = Eigen::VectorXd::Zero(space.dofs.size());
  ElementFields fields;
  std::vector<int> dofs(size);
  const auto exact_fields = [&](Eigen::VectorXd& b_r, Eigen::VectorXd& b_z) {
    b_r.resize(fields.at.r.size());
    b_z.resize(fields.at.r.size());
    for (Eigen::Index q = 0; q < b_r.size(); ++q) exact(fields.at.r[q], fields.at.z[q], b_r[q], b_z[q]);
  };
  Eigen::VectorXd b_r, b_z;
  for (int t = 0; t < triangles; ++t) {
    evaluate_fields(space, t, fields);
    space.dofs.of_triangle(t, dofs.data());
    exact_fields(b_r, b_z);
    const auto dV = fields.at.weight.matrix().asDiagonal();
    const Eigen::MatrixXd k =
        fields.b_r.transpose() * dV * fields.b_r + fields.b_z.transpose() * dV * fields.b_z;
    const Eigen::VectorXd f = fields.b_r.transpose() * dV * b_r + fields.b_z.transpose() * dV * b_z;
    for (int i = 0; i < size; ++i) {
      load[dofs[i]] += f[i];
      for (int j = 0; j < size; ++j) entries.emplace_back(dofs[i], dofs[j], k(i, j));
    }
  }
  Eigen::SparseMatrix<double> matrix(space.dofs.size(), space.dofs.size());
  matrix.setFromTriplets(entries.begin(), entries.end());
  const Eigen::VectorXd x = Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>>(matrix).solve(load);
  double off = 0, all = 0;
  for (int t = 0; t < triangles; ++t) {
    evaluate_fields(space, t, fields);
    space.dofs.of_triangle(t, dofs.data());
    exact_fields(b_r, b_z);
    Eigen::VectorXd own(size);
    for (int i = 0; i < size; ++i) own[i] = x[dofs[i]];
    off += (fields.at.weight *
            ((fields.b_r * own - b_r).array().square() + (fields.b_z * own - b_z).array().square()))
               .sum();
    all += (fields.at.weight * (b_r.array().square() + b_z.array().square())).sum();
  }
  return std::sqrt(off / all);
}

}  // namespace

TEST_CASE("B converges with the order of the basis on a smooth field") {
  // Three meshes, slope between the finer two. Band 0.15: the coarsest mesh has cells of a/6.
  for (int order = 1; order <= 4; ++order)
    for (const double r0 : {2e-3, 6e-3}) {
      const int cells = order <= 2 ? 16 : 8;
      const double coarse = error(order, cells, r0), fine = error(order, 2 * cells, r0);
      const double observed = std::log2(coarse / fine);
      MESSAGE("order " << order << ", r0 = " << r0 << " m: errors " << coarse << ", " << fine
                       << ", observed order " << observed);
      CHECK(std::abs(observed - order) < 0.15);
    }
}
