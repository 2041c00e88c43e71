// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/element_batch.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <mutex>

namespace coilpull::detail {
namespace {

constexpr int most_rules = 40;
constexpr int most_tabled = 16;  ///< rules above, near the axis only, do without the large table of products
constexpr int slots[6][2] = {{0, 0}, {0, 1}, {0, 2}, {1, 1}, {1, 2}, {2, 2}};
/// A batch's arrays together stay below this many numbers: a third of a megabyte.
constexpr Eigen::Index most_numbers = 40000;

BatchTable make_table(int order, int n) {
  const BasisTable& basis = basis_table(order, n);
  const Eigen::Index points = basis.value.rows(), size = basis.value.cols();
  BatchTable table{Eigen::MatrixXd(3 * points, size), {}};
  table.functions << basis.d_xi, basis.d_eta, basis.value;
  if (n > most_tabled) return table;
  table.products.resize(size * (size + 1) / 2, 6 * points);
  Eigen::Index pair = 0;
  for (Eigen::Index j = 0; j < size; ++j)
    for (Eigen::Index i = j; i < size; ++i, ++pair)
      for (int s = 0; s < 6; ++s) {
        const auto slot = [&](int a, Eigen::Index f) {
          return table.functions.col(f).segment(a * points, points).array();
        };
        const auto [a, b] = slots[s];
        auto row = table.products.row(pair).segment(s * points, points).array();
        if (a == b)
          row = (slot(a, i) * slot(a, j)).transpose();
        else
          row = (slot(a, i) * slot(b, j) + slot(b, i) * slot(a, j)).transpose();
      }
  return table;
}

ElementBatch make_batch(const Space& space, int region, int n, std::vector<int> triangles) {
  const Eigen::Index points = basis_table(space.dofs.order(), n).value.rows(),
                     count = static_cast<Eigen::Index>(triangles.size());
  ElementBatch batch;
  batch.region = region;
  batch.order = space.dofs.order();
  batch.n = n;
  batch.triangles = std::move(triangles);
  batch.dofs.resize(basis_size(batch.order), count);
  for (auto* array :
       {&batch.weight, &batch.r_xi, &batch.r_eta, &batch.z_xi, &batch.z_eta, &batch.z_v, &batch.a})
    array->resize(points, count);
  MappedRule at;
  for (Eigen::Index e = 0; e < count; ++e) {
    space.dofs.of_triangle(batch.triangles[e], batch.dofs.col(e).data());
    map_rule(space.geometry, batch.triangles[e], n, at);
    const Eigen::ArrayXd q = at.r.square() + space.r0 * space.r0;
    batch.weight.col(e) = at.weight;
    batch.a.col(e) = at.r / q;
    batch.r_xi.col(e) = -batch.a.col(e) * at.xi_z;
    batch.r_eta.col(e) = -batch.a.col(e) * at.eta_z;
    batch.z_xi.col(e) = batch.a.col(e) * at.xi_r;
    batch.z_eta.col(e) = batch.a.col(e) * at.eta_r;
    batch.z_v.col(e) = 2 * space.r0 * space.r0 / q.square();
  }
  return batch;
}

/// The products of the large table, taken when they are needed, triangle by triangle.
void multiply_out(const ElementBatch& batch, const Eigen::MatrixXd& pairs, Eigen::MatrixXd& packed) {
  const Eigen::MatrixXd& functions = batch.table().functions;
  const Eigen::Index points = batch.weight.rows(), size = functions.cols();
  packed.resize(size * (size + 1) / 2, pairs.cols());
  Eigen::MatrixXd weighted(3 * points, size), small(size, size);
  for (Eigen::Index e = 0; e < pairs.cols(); ++e) {
    weighted.setZero();
    for (int s = 0; s < 6; ++s) {
      const auto factor = pairs.col(e).segment(s * points, points).asDiagonal();
      const auto [a, b] = slots[s];
      weighted.middleRows(a * points, points) += factor * functions.middleRows(b * points, points);
      if (a != b)
        weighted.middleRows(b * points, points) += factor * functions.middleRows(a * points, points);
    }
    small.noalias() = functions.transpose() * weighted;
    double* next = packed.col(e).data();
    for (Eigen::Index j = 0; j < size; ++j)
      for (Eigen::Index i = j; i < size; ++i) *next++ = small(i, j);
  }
}

}  // namespace

const BatchTable& batch_table(int order, int n) {
  struct Slot {
    std::once_flag once;
    std::unique_ptr<const BatchTable> table;
  };
  static std::array<std::array<Slot, most_rules + 1>, highest_order + 1> tables;
  Slot& slot = tables.at(order).at(n);
  std::call_once(slot.once, [&] { slot.table = std::make_unique<const BatchTable>(make_table(order, n)); });
  return *slot.table;
}

std::vector<ElementBatch> batches_of(const Space& space, const std::vector<char>& wanted) {
  std::vector<ElementBatch> batches;
  std::vector<std::vector<int>> by_rule(most_rules + 1);
  for (int region = 0; region < static_cast<int>(wanted.size()); ++region) {
    if (!wanted[region]) continue;
    for (auto& list : by_rule) list.clear();
    for (int t = 0; t < static_cast<int>(space.topology->triangles.cols()); ++t)
      if (space.mesh->region_of[t] == region) by_rule[space.rule_of[t]].push_back(t);
    for (int n = 1; n <= most_rules; ++n) {
      const std::vector<int>& all = by_rule[n];
      const std::size_t most = std::max<std::size_t>(1, most_numbers / (7 * n * n));
      for (std::size_t first = 0; first < all.size(); first += most)
        batches.push_back(make_batch(
            space, region, n, {all.begin() + first, all.begin() + std::min(all.size(), first + most)}));
    }
  }
  return batches;
}

void gather(const Eigen::MatrixXi& dofs, const Eigen::VectorXd& x, Eigen::MatrixXd& own) {
  own.resize(dofs.rows(), dofs.cols());
  for (Eigen::Index k = 0; k < dofs.size(); ++k) own.data()[k] = x[dofs.data()[k]];
}

void scatter(const Eigen::MatrixXi& dofs, const Eigen::MatrixXd& own, Eigen::Ref<Eigen::VectorXd> x) {
  for (Eigen::Index k = 0; k < dofs.size(); ++k) x[dofs.data()[k]] += own.data()[k];
}

void form_matrices(const ElementBatch& batch, const Eigen::ArrayXXd& rr, const Eigen::ArrayXXd& rz,
                   const Eigen::ArrayXXd& zz, Eigen::MatrixXd& work, Eigen::MatrixXd& packed) {
  // B_r = R.s and B_z = Z.s of the slots s: the form is s'(rr R R' + rz (R Z' + Z R') + zz Z Z')s.
  const Eigen::Index points = batch.weight.rows(), count = batch.weight.cols();
  work.resize(6 * points, count);
  const auto part = [&](int pair) { return work.middleRows(pair * points, points).array(); };
  part(0) = rr * batch.r_xi.square() + zz * batch.z_xi.square();
  part(1) = rr * batch.r_xi * batch.r_eta + zz * batch.z_xi * batch.z_eta;
  part(2) = zz * batch.z_xi * batch.z_v;
  part(3) = rr * batch.r_eta.square() + zz * batch.z_eta.square();
  part(4) = zz * batch.z_eta * batch.z_v;
  part(5) = zz * batch.z_v.square();
  if (rz.size() > 0) {
    part(0) += 2 * rz * batch.r_xi * batch.z_xi;
    part(1) += rz * (batch.r_xi * batch.z_eta + batch.r_eta * batch.z_xi);
    part(2) += rz * batch.r_xi * batch.z_v;
    part(3) += 2 * rz * batch.r_eta * batch.z_eta;
    part(4) += rz * batch.r_eta * batch.z_v;
  }
  if (batch.n <= most_tabled)
    packed.noalias() = batch.table().products * work;
  else
    multiply_out(batch, work, packed);
}

void flux_densities(const ElementBatch& batch, const Eigen::MatrixXd& own, Eigen::MatrixXd& slots,
                    Eigen::ArrayXXd& b_r, Eigen::ArrayXXd& b_z) {
  const Eigen::Index points = batch.weight.rows();
  slots.noalias() = batch.table().functions * own;
  const auto xi = slots.topRows(points).array(), eta = slots.middleRows(points, points).array(),
             v = slots.bottomRows(points).array();
  b_r = batch.r_xi * xi + batch.r_eta * eta;
  b_z = batch.z_xi * xi + batch.z_eta * eta + batch.z_v * v;
}

void test_with_fields(const ElementBatch& batch, const Eigen::ArrayXXd& h_r, const Eigen::ArrayXXd& h_z,
                      Eigen::MatrixXd& slots, Eigen::MatrixXd& own) {
  const Eigen::Index points = batch.weight.rows();
  slots.resize(3 * points, batch.weight.cols());
  slots.topRows(points) = (batch.r_xi * h_r + batch.z_xi * h_z).matrix();
  slots.middleRows(points, points) = (batch.r_eta * h_r + batch.z_eta * h_z).matrix();
  slots.bottomRows(points) = (batch.z_v * h_z).matrix();
  own.noalias() += batch.table().functions.transpose() * slots;
}

}  // namespace coilpull::detail
