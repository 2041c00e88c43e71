// SPDX-License-Identifier: GPL-3.0-or-later
// Element matrices of a batch against the sum over quadrature points of products of the basis' fields.
#include "solver/fem/element_batch.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "tests/near.hpp"

namespace coilpull {
namespace {

/// Two triangles between the axis and r = 1 cm.
detail::Space two_triangles(int order, double r0) {
  auto mesh = std::make_shared<Mesh>();
  mesh->nodes.resize(2, 4);
  mesh->nodes << 0, 0.01, 0.01, 0, 0, 0, 0.007, 0.01;
  mesh->triangles.resize(3, 2);
  mesh->triangles << 0, 0, 1, 2, 2, 3;
  mesh->region_of = Eigen::VectorXi::Zero(2);
  return detail::make_space(mesh, std::make_shared<detail::Topology>(detail::topology_of(*mesh)), order, r0);
}

/// The largest difference of a batch's matrices from the definition, relative to the largest entry.
double difference(const detail::Space& space, const detail::ElementBatch& batch) {
  const Eigen::Index points = batch.weight.rows(), count = batch.weight.cols();
  // any tensor that changes from point to point
  const Eigen::ArrayXXd at = Eigen::ArrayXd::LinSpaced(points * count, 0, 3).reshaped(points, count);
  const Eigen::ArrayXXd rr = batch.weight * (1 + at), rz = batch.weight * at.sin(),
                        zz = batch.weight * (2 + at.cos());
  Eigen::MatrixXd work, packed;
  detail::form_matrices(batch, rr, rz, zz, work, packed);
  double most = 0, largest = 0;
  for (Eigen::Index e = 0; e < count; ++e) {
    detail::ElementFields fields;
    detail::evaluate_fields(space, batch.triangles[e], fields);
    const auto times = [&](const Eigen::MatrixXd& a, const Eigen::ArrayXXd& t, const Eigen::MatrixXd& b) {
      return Eigen::MatrixXd(a.transpose() * t.col(e).matrix().asDiagonal() * b);
    };
    const Eigen::MatrixXd expected = times(fields.b_r, rr, fields.b_r) + times(fields.b_r, rz, fields.b_z) +
                                     times(fields.b_z, rz, fields.b_r) + times(fields.b_z, zz, fields.b_z);
    largest = std::max(largest, expected.cwiseAbs().maxCoeff());
    Eigen::Index row = 0;
    for (Eigen::Index j = 0; j < expected.cols(); ++j)
      for (Eigen::Index i = j; i < expected.rows(); ++i, ++row)
        most = std::max(most, std::fabs(packed(row, e) - expected(i, j)));
  }
  return most / largest;
}

}  // namespace

TEST_CASE("element matrices are the fields' products at the points, from the large table or without it") {
  // A blending length of a hundredth of the triangle takes more points than the table is made for.
  for (const auto& [r0, table] : {std::pair{0.01, true}, {1e-4, false}})
    for (int order = 1; order <= detail::highest_order; ++order) {
      const detail::Space space = two_triangles(order, r0);
      int triangles = 0;
      for (const detail::ElementBatch& batch : detail::batches_of(space, {1})) {
        INFO("order " << order << ", " << batch.n << " points on a side");
        CHECK((batch.table().products.size() > 0) == table);
        CHECK(difference(space, batch) < 1e-13);
        triangles += static_cast<int>(batch.triangles.size());
      }
      CHECK(triangles == 2);
    }
}

}  // namespace coilpull
