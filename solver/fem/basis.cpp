// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/basis.hpp"

#include <array>
#include <memory>
#include <mutex>

namespace coilpull::detail {
namespace {

using Vec3 = Eigen::Vector3d;

/// A function of the three barycentric coordinates with its partial derivatives, taken as if independent.
struct Term {
  double value;
  Vec3 slope;
};

Term product(const Term& a, const Term& b) {
  return {a.value * b.value, a.slope * b.value + a.value * b.slope};
}

/// Legendre polynomials L_0 .. L_n of a linear argument with the given slope.
void legendre(double x, const Vec3& dx, int n, Term* out) {
  out[0] = {1, Vec3::Zero()};
  if (n >= 1) out[1] = {x, dx};
  for (int k = 1; k < n; ++k) {
    const double a = (2.0 * k + 1) / (k + 1), b = double(k) / (k + 1);
    out[k + 1] = {a * x * out[k].value - b * out[k - 1].value,
                  a * (dx * out[k].value + x * out[k].slope) - b * out[k - 1].slope};
  }
}

}  // namespace

void evaluate_basis(int order, double xi, double eta, Eigen::Ref<Eigen::VectorXd> value,
                    Eigen::Ref<Eigen::Matrix2Xd> slope) {
  const double l[3] = {1 - xi - eta, xi, eta};
  const int corners[3][2] = {{0, 1}, {1, 2}, {0, 2}};
  int next = 0;
  const auto put = [&](const Term& term) {
    value[next] = term.value;
    slope.col(next++) << term.slope[1] - term.slope[0], term.slope[2] - term.slope[0];
  };

  Term corner[3], bubble{}, edge[3], on_edge[3][highest_order], inner_a[highest_order],
      inner_b[highest_order];
  for (int i = 0; i < 3; ++i) {
    corner[i] = {l[i], Vec3::Unit(i)};
    put(corner[i]);
  }
  if (order < 2) return;
  for (int e = 0; e < 3; ++e) {
    const int a = corners[e][0], b = corners[e][1];
    edge[e] = product(corner[a], corner[b]);
    legendre(l[b] - l[a], Vec3::Unit(b) - Vec3::Unit(a), order - 2, on_edge[e]);
  }
  if (order >= 3) {
    bubble = product(edge[0], corner[2]);
    legendre(l[1] - l[0], Vec3::Unit(1) - Vec3::Unit(0), order - 3, inner_a);
    legendre(2 * l[2] - 1, 2 * Vec3::Unit(2), order - 3, inner_b);
  }
  for (int degree = 2; degree <= order; ++degree) {
    for (int e = 0; e < 3; ++e) put(product(edge[e], on_edge[e][degree - 2]));
    for (int i = 0; i + 3 <= degree; ++i) put(product(bubble, product(inner_a[i], inner_b[degree - 3 - i])));
  }
}

const BasisTable& basis_table(int order, int n) {
  constexpr int most = 40;
  struct Slot {
    std::once_flag once;
    std::unique_ptr<const BasisTable> table;
  };
  static std::array<std::array<Slot, most + 1>, highest_order + 1> slots;
  Slot& slot = slots.at(order).at(n);
  std::call_once(slot.once, [&] {
    auto table = std::make_unique<BasisTable>();
    table->rule = triangle_rule(n);
    const Eigen::Index points = table->rule.weights.size(), size = basis_size(order);
    for (auto* m : {&table->value, &table->d_xi, &table->d_eta}) m->resize(points, size);
    Eigen::VectorXd value(size);
    Eigen::Matrix2Xd slope(2, size);
    for (Eigen::Index q = 0; q < points; ++q) {
      evaluate_basis(order, table->rule.points(0, q), table->rule.points(1, q), value, slope);
      table->value.row(q) = value.transpose();
      table->d_xi.row(q) = slope.row(0);
      table->d_eta.row(q) = slope.row(1);
    }
    slot.table = std::move(table);
  });
  return *slot.table;
}

}  // namespace coilpull::detail
