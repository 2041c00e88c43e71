// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/magnet_recoil_moment.csv (magnets of recoil permeability above 1, alone in air).
// With b = B/Br and chi = mu_rec - 1, the magnetisation is M mu0/Br = 1 + (b - 1) chi / mu_rec. Means of B_z
// come from the flux through discs: over the mid-plane 2 A(a)/a, over the volume the mean of that along the
// side.
#include <cmath>

#include "apps/validation/fe_path.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

TEST_CASE("a magnet of recoil permeability above 1 loses moment to its own field") {
  const CsvFile table = read_csv("data/published/magnet_recoil_moment.csv");
  const double radius = 0.005, remanence_T = 1.2;
  const MeanRule rule = mean_rule(40);
  FePath path(3, {2.0});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double gamma = table.number_at(i, "gamma"), recoil = table.number_at(i, "mu_rec"), chi = recoil - 1;
    INFO("length over diameter " << gamma << ", recoil permeability " << recoil);
    const double half = gamma * radius;
    const Solved solved =
        path.solve(in_air({}, {magnet_of("magnet", {0, radius, -half, half}, remanence_T, recoil)}), 0, {{}})
            .front();
    const auto disc_mean = [&](double z) { return 2 * solved.a_phi({radius, z}) / radius; };
    double volume_mean = 0;
    for (std::size_t k = 0; k < rule.at.size(); ++k)
      volume_mean += rule.weight[k] * disc_mean((2 * rule.at[k] - 1) * half);
    const auto magnetisation = [&](double b) { return 1 + (b / remanence_T - 1) * chi / recoil; };

    const double moment = magnetisation(volume_mean), middle = magnetisation(disc_mean(0));
    CHECK(moment == near(table.number_at(i, "moment/(V*Br/mu0)"), 3e-6));
    CHECK(middle == near(table.number_at(i, "midplane_mean_M/(Br/mu0)"), 3e-6));  // left: 1e-6
    // The loss alone, which is what the field decides: demagnetising factors N = (1/m - 1)/chi, between 0
    // and 1.
    CHECK(std::abs((1 / moment - 1) / chi - table.number_at(i, "Nm")) < 5e-5);
    CHECK(std::abs((1 / middle - 1) / chi - table.number_at(i, "Nf")) < 5e-5);
  }
}
