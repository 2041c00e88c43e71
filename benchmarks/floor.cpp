// SPDX-License-Identifier: GPL-3.0-or-later
// How far is a whole table from what cannot be avoided? Of rod_and_disc.toml: the mesher's calls, at both
// orders one assembly and elimination of what has a straight law for each displacement, and for each point
// one assembly, factorisation and back-substitution of the steel. No search for an order of elimination. One
// thread; the least of three rounds of both.
#include <algorithm>
#include <chrono>
#include <cstdio>

#include "apps/device_file/read_device_file.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/sweep/sweep.hpp"

using namespace coilpull;

namespace {

template <class Work>
double seconds(const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

FieldOptions one_step(int order, double outer_ratio) {
  FieldOptions options;
  options.order = order;
  options.outer_ratio = outer_ratio;
  options.newton.remaining_below = 1e300;  // the first step is the last
  options.newton.left_below = 1e300;
  return options;
}

Eigen::VectorXd vector_of(const std::vector<double>& values) {
  return Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

struct Floor {
  double meshing = 0, straight = 0, steel = 0;  // [s]
};

/// @param table  of the device: tells where meshes were made
Floor floor_of(const Device& device, const ForceTable& table, Mesher& mesher) {
  Floor floor;
  for (std::size_t i = 0; i < device.displacements.size(); ++i) {
    const Resolution& resolution = *table.meshes[i].resolution;
    std::shared_ptr<const Mesh> mesh;
    const double meshing = seconds([&] {
      mesh =
          std::make_shared<const Mesh>(mesher.mesh(section_at(device, device.displacements[i], resolution)));
    });
    if (table.meshes[i].made_at == device.displacements[i]) floor.meshing += meshing;
    const Problem problem = make_problem(device, mesh->region_names);
    for (const int order : {table.order - 1, table.order}) {
      const FieldOptions options = one_step(order, resolution.outer_ratio);
      const FieldSolver like(mesh, problem, options);  // not counted: finding an order of elimination
      std::unique_ptr<FieldSolver> solver;
      floor.straight +=
          seconds([&] { solver = std::make_unique<FieldSolver>(mesh, problem, options, &like); });
      floor.steel += seconds([&] {
        for (const std::vector<double>& currents : device.currents_A) solver->solve(vector_of(currents));
      });
    }
  }
  return floor;
}

}  // namespace

int main(int count, char** words) {
  const Device device =
      open_device_file(count > 1 ? words[1] : COILPULL_SOURCE_DIR "/benchmarks/rod_and_disc.toml").device;
  SweepOptions options;
  options.threads = 1;
  options.audit = false;
  Mesher mesher;
  mesher.start();
  double least_table = 1e300, least_floor = 1e300;
  Floor least;
  for (int round = 0; round < 3; ++round) {
    ForceTable table;
    least_table = std::min(least_table, seconds([&] { table = sweep(device, options); }));
    const Floor floor = floor_of(device, table, mesher);
    const double sum = floor.meshing + floor.straight + floor.steel;
    if (sum < least_floor) least_floor = sum, least = floor;
  }
  std::printf(
      "meshing %.3f s, straight laws %.3f s, steel %.3f s: %.3f s; the table %.3f s, %.2f times the floor\n",
      least.meshing, least.straight, least.steel, least_floor, least_table, least_table / least_floor);
}
