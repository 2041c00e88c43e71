// SPDX-License-Identifier: GPL-3.0-or-later
// Does the block elimination serve this program's matrices better than a general sparse Cholesky?
#include <benchmark/benchmark.h>

#include <Eigen/SparseCholesky>
#include <cstdio>

#include "solver/fem/element_energy.hpp"
#include "solver/fem/sparse_pattern.hpp"
#include "solver/field/sparse_cholesky.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

/// The stiffness of a whole mesh with straight laws, lower triangle; the half circle held by a large
/// diagonal.
Eigen::SparseMatrix<double> stiffness(int order) {
  const auto mesh = mesh_of(tube_and_rod(), 14e-3);
  const Space space = make_space(mesh, std::make_shared<Topology>(topology_of(*mesh)), order, 2e-3);
  RegionPhysics air;
  air.material = SoftLaw(LinearLaw{1});
  const std::vector<ElementBatch> batches =
      batches_of(space, std::vector<char>(mesh->region_names.size(), 1));
  Groups groups;
  for (const ElementBatch& batch : batches)
    for (const auto& own : batch.dofs.colwise()) groups.add(own.data(), own.size());
  Eigen::SparseMatrix<double> matrix = symmetric_pattern(space.dofs.size(), groups);
  LinearBatch part;
  for (const ElementBatch& batch : batches) {
    linear_batch(air, batch, part);
    std::vector<int> places;
    for (const auto& own : batch.dofs.colwise()) append_places(matrix, own.data(), own.size(), places);
    add_packed(matrix, places.data(), part.stiffness);
  }
  for (int i = 0; i < matrix.cols(); ++i) matrix.coeffRef(i, i) *= 1 + 1e-9;
  return matrix;
}

void ours(benchmark::State& state) {
  const Eigen::SparseMatrix<double> matrix = stiffness(static_cast<int>(state.range(0)));
  SparseCholesky cholesky(matrix);
  for (auto _ : state) benchmark::DoNotOptimize(cholesky.factorise(matrix));
  state.counters["unknowns"] = static_cast<double>(matrix.cols());
}

void ours_with_order(benchmark::State& state) {
  const Eigen::SparseMatrix<double> matrix = stiffness(static_cast<int>(state.range(0)));
  for (auto _ : state) {
    SparseCholesky cholesky(matrix);
    benchmark::DoNotOptimize(cholesky.factorise(matrix));
  }
}

void general(benchmark::State& state) {
  const Eigen::SparseMatrix<double> matrix = stiffness(static_cast<int>(state.range(0)));
  Eigen::SimplicialLLT<Eigen::SparseMatrix<double>> cholesky;
  cholesky.analyzePattern(matrix);
  for (auto _ : state) {
    cholesky.factorize(matrix);
    benchmark::ClobberMemory();
  }
}

bool equal(int order) {
  const Eigen::SparseMatrix<double> matrix = stiffness(order);
  const Eigen::VectorXd load = Eigen::VectorXd::Random(matrix.cols());
  SparseCholesky cholesky(matrix);
  if (!cholesky.factorise(matrix)) return false;
  Eigen::MatrixXd x = load;
  cholesky.forward(x);
  cholesky.backward(x);
  const Eigen::VectorXd expected = Eigen::SimplicialLLT<Eigen::SparseMatrix<double>>(matrix).solve(load);
  return (x - expected).norm() < 1e-7 * expected.norm();  // condition of the matrix times rounding
}

}  // namespace

BENCHMARK(ours)->Arg(3)->Arg(4);
BENCHMARK(ours_with_order)->Arg(3)->Arg(4);
BENCHMARK(general)->Arg(3)->Arg(4);

int main(int count, char** words) {
  for (const int order : {3, 4})
    if (!equal(order)) return std::fprintf(stderr, "order %d: the two ways disagree\n", order), 1;
  benchmark::Initialize(&count, words);
  benchmark::RunSpecifiedBenchmarks();
}
