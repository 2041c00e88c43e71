// SPDX-License-Identifier: GPL-3.0-or-later
// From how many unknowns on the surface of steel on is their full matrix dearer than a sparse one of
// everything?
#include <benchmark/benchmark.h>

#include <cstdio>

#include "solver/field/condensed.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

constexpr int never = 0, always = 1 << 30;  // full

/// The tube of tube_and_rod() with a thinner wall: the thinner, the more triangles along its surface.
struct Case {
  Device device = tube_and_rod();
  std::shared_ptr<const Mesh> mesh;
  explicit Case(double wall) {
    device.cores[0].outline = rectangle(6e-3, 6e-3 + wall, -20e-3, 20e-3);
    mesh = mesh_of(device, 14e-3);
  }
  FieldSolver solver(int most_on_surface) const {
    FieldOptions options;
    options.order = 4;
    options.most_on_surface = most_on_surface;
    return FieldSolver(mesh, make_problem(device, mesh->region_names), options);
  }
  std::size_t on_surface(const FieldSolver& solver) const {
    return detail::Condensed(*solver.space(), solver.problem(), 10, always).interface().size();
  }
};

/// One displacement of a table: the solver of a mesh, and a field for each of 21 currents.
void solve(benchmark::State& state, int most_on_surface) {
  const Case on(1e-6 * static_cast<double>(state.range(0)));
  for (auto _ : state) {
    FieldSolver solver = on.solver(most_on_surface);
    Eigen::VectorXd start;
    for (int i = -10; i <= 10; ++i)
      start = solver.solve(Eigen::VectorXd::Constant(1, 0.6 * i), start).coefficients;
    benchmark::DoNotOptimize(start);
  }
  const FieldSolver solver = on.solver(most_on_surface);
  state.counters["on_surface"] = static_cast<double>(on.on_surface(solver));
  state.counters["unknowns"] = solver.unknowns();
}
void full(benchmark::State& state) { solve(state, always); }
void sparse(benchmark::State& state) { solve(state, never); }

bool equal() {
  const Case on(1e-3);
  const double a = on.solver(always).solve(Eigen::VectorXd::Constant(1, 6)).coenergy_J,
               b = on.solver(never).solve(Eigen::VectorXd::Constant(1, 6)).coenergy_J;
  return std::abs(a - b) < 1e-9 * std::abs(a);  // Newton's method and rounding
}

}  // namespace

BENCHMARK(full)->Arg(3000)->Arg(800)->Arg(600)->Arg(400)->Arg(200)->Arg(100)->Unit(benchmark::kMillisecond);
BENCHMARK(sparse)->Arg(3000)->Arg(800)->Arg(600)->Arg(400)->Arg(200)->Arg(100)->Unit(benchmark::kMillisecond);

int main(int count, char** words) {
  if (!equal()) return std::fprintf(stderr, "the two ways disagree\n"), 1;
  benchmark::Initialize(&count, words);
  benchmark::RunSpecifiedBenchmarks();
}
