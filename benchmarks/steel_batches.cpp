// SPDX-License-Identifier: GPL-3.0-or-later
// What does it gain to treat triangles of saturable steel as one matrix product instead of one by one?
#include <benchmark/benchmark.h>

#include <cstdio>

#include "solver/fem/element_energy.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

struct Case {
  Space space;
  ElementBatch batch;  ///< the largest one of the tube
  SoftLaw law = FroehlichLaw{2.1, 500};
  RegionPhysics region{law, {}, 0};
  Eigen::MatrixXd own;  ///< coefficients of a field of about 1 T

  explicit Case(int order) : space(space_of(order)) {
    for (ElementBatch& each : batches_of(space, {1, 0, 0, 0}))
      if (batch.triangles.size() < each.triangles.size()) batch = std::move(each);
    own = Eigen::MatrixXd::Random(batch.dofs.rows(), batch.dofs.cols()) * 5e-3;
  }
  static Space space_of(int order) {
    const auto mesh = mesh_of(tube_and_rod(), 14e-3);
    return make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)), order, 2e-3);
  }
};

/// The same integrals, each triangle by itself with small dense matrices.
Eigen::MatrixXd one_by_one(const Case& on, Eigen::MatrixXd& tangents) {
  Eigen::MatrixXd pulls(on.own.rows(), on.own.cols());
  const Eigen::Index size = on.own.rows();
  tangents.resize(size * (size + 1) / 2, on.own.cols());
  ElementFields fields;
  for (Eigen::Index e = 0; e < on.own.cols(); ++e) {
    evaluate_fields(on.space, on.batch.triangles[e], fields);
    const Eigen::VectorXd b_r = fields.b_r * on.own.col(e), b_z = fields.b_z * on.own.col(e);
    Eigen::VectorXd h_r(b_r.size()), h_z(b_r.size()), rr(b_r.size()), rz(b_r.size()), zz(b_r.size());
    for (Eigen::Index q = 0; q < b_r.size(); ++q) {
      const double b = std::hypot(b_r[q], b_z[q]), dV = fields.at.weight[q];
      const LawPoint at = evaluate(on.law, b);
      const double nu = at.h / b, turn = (at.dh_db - nu) / (b * b);
      h_r[q] = dV * nu * b_r[q], h_z[q] = dV * nu * b_z[q];
      rr[q] = dV * (nu + turn * b_r[q] * b_r[q]), zz[q] = dV * (nu + turn * b_z[q] * b_z[q]);
      rz[q] = dV * turn * b_r[q] * b_z[q];
    }
    pulls.col(e) = fields.b_r.transpose() * h_r + fields.b_z.transpose() * h_z;
    const Eigen::MatrixXd d_r = rr.asDiagonal() * fields.b_r + rz.asDiagonal() * fields.b_z;
    const Eigen::MatrixXd d_z = rz.asDiagonal() * fields.b_r + zz.asDiagonal() * fields.b_z;
    const Eigen::MatrixXd k = fields.b_r.transpose() * d_r + fields.b_z.transpose() * d_z;
    double* next = tangents.col(e).data();
    for (Eigen::Index j = 0; j < size; ++j)
      for (Eigen::Index i = j; i < size; ++i) *next++ = k(i, j);
  }
  return pulls;
}

void together(benchmark::State& state) {
  const Case on(static_cast<int>(state.range(0)));
  SteelBatch steel(on.region, on.batch);
  Eigen::MatrixXd pulls;
  for (auto _ : state) {
    pulls.setZero(on.own.rows(), on.own.cols());
    steel.gradient(on.own, pulls);
    benchmark::DoNotOptimize(steel.tangent().data());
  }
  state.counters["per triangle"] =
      benchmark::Counter(static_cast<double>(on.own.cols()),
                         benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void apart(benchmark::State& state) {
  const Case on(static_cast<int>(state.range(0)));
  Eigen::MatrixXd tangents;
  for (auto _ : state) benchmark::DoNotOptimize(one_by_one(on, tangents).data());
  state.counters["per triangle"] =
      benchmark::Counter(static_cast<double>(on.own.cols()),
                         benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

bool equal(int order) {
  const Case on(order);
  SteelBatch steel(on.region, on.batch);
  Eigen::MatrixXd pulls = Eigen::MatrixXd::Zero(on.own.rows(), on.own.cols()), tangents;
  steel.gradient(on.own, pulls);
  const Eigen::MatrixXd expected = one_by_one(on, tangents);
  return (pulls - expected).norm() < 1e-12 * expected.norm() &&
         (steel.tangent() - tangents).norm() < 1e-12 * tangents.norm();
}

}  // namespace

BENCHMARK(together)->Arg(3)->Arg(4);
BENCHMARK(apart)->Arg(3)->Arg(4);

int main(int count, char** words) {
  for (const int order : {3, 4})
    if (!equal(order)) return std::fprintf(stderr, "order %d: the two ways disagree\n", order), 1;
  benchmark::Initialize(&count, words);
  benchmark::RunSpecifiedBenchmarks();
}
