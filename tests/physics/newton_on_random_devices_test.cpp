// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <map>
#include <sstream>

#include "solver/device/make_problem.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/measure/saturation.hpp"
#include "tests/physics/devices.hpp"
#include "tests/physics/random_device.hpp"

using namespace coilpull;

TEST_CASE("Newton's method converges from a zero field on 200 random devices") {
  std::map<int, int> histogram;
  int moving_steel = 0, touching = 0, hair_gap = 0, strong = 0;
  Mesher mesher;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    const RandomDevice random = random_device(seed);
    INFO("seed " << seed);
    const auto mesh = std::make_shared<Mesh>(mesher.mesh(section_at(random.device, 0, coarse(0.6))));
    FieldOptions options;
    options.order = 2;
    FieldSolver solver(mesh, make_problem(random.device, mesh->region_names), options);
    double largest_b = 0;
    for (const std::vector<double>& currents : random.device.currents_A) {
      const Field field = solver.solve(amperes(currents));
      INFO("current " << currents[0] << " A: " << words_for(field.report.ending) << " after "
                      << field.report.steps);
      CHECK(field.report.usable());
      ++histogram[field.report.steps];
      for (std::size_t k = 0; k < random.device.cores.size(); ++k)
        largest_b = std::max(largest_b, flux_density_percentile(field, static_cast<int>(k), 0.99));
    }
    moving_steel += random.moving_steel;
    touching += random.touching;
    hair_gap += random.hair_gap;
    strong += largest_b > 2.5;
  }
  std::ostringstream table;
  for (const auto& [steps, count] : histogram) table << "\n  " << steps << " steps: " << count;
  MESSAGE("Newton steps from a zero field:" << table.str());
  MESSAGE("moving steel " << moving_steel << ", touching " << touching << ", gap below 1e-3 " << hair_gap
                          << ", above 2.5 T " << strong);
  for (const int count : {moving_steel, touching, hair_gap, strong})
    CHECK(count >= 20);  // at least a tenth of each
}
