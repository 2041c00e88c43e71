// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "apps/validation/families.hpp"
#include "apps/validation/published_laws.hpp"
#include "apps/validation/solenoid_slice.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

/// Change from order 4 to 5 and from 8 to 10 layers; below it, Newton's residual of 1e-10.
Measured barred(double order4, double order5, double other) {
  const double bar = std::max(1.5 * std::abs(order5 - order4), std::abs(other - order5));
  return {other, std::max(bar, 2e-10 * std::abs(other))};
}

struct Column {
  const char *name, *what, *unit;
  double SolenoidSlice::*value;
  double by_our_curve;
};

}  // namespace

void check_solenoid_core(Record& record) {
  const std::string file = "infinite_solenoid_core.csv";
  const Source* laws =
      record.source("Ampere's law, endless solenoid",
                    "Core in an endless solenoid: H = n I inside, exact for any B-H law. The file's "
                    "end force follows from its coenergy and is not counted again",
                    file);
  const Source* team =
      record.source("TEAM problem 13, steel",
                    "T. Nakata, K. Fujiwara, COMPEL 11 (1992) 345: B-H table of the steel of TEAM "
                    "problems 10 and 13, read, here in an endless solenoid, joined by straight lines",
                    file);
  const CsvFile table = read_published(file);
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& name = table.text_at(i, "law");
    const bool joined = is_joined_table(name);
    const SoftLaw law = published_law(name);
    const double h = table.number_at(i, "nI_A_per_m");
    const SolenoidSlice low = solve_slice(law, h), high = solve_slice(law, h, {8, 5});
    const SolenoidSlice other = solve_slice(law, h, {10, 5});
    const double b = flux_density_at(law, h), r = SolenoidSlice::core_radius,
                 sheet = SolenoidSlice::sheet_radius;
    const Column columns[] = {
        {"B_core_T", "B", "T", &SolenoidSlice::core_b_T, b},
        {"flux_Wb", "flux", "Wb", &SolenoidSlice::sheet_flux_Wb,
         pi * (b * r * r + mu0 * h * (sheet * sheet - r * r))},
        {"coenergy_density_core_J_per_m3", "coenergy density", "J/m^3", &SolenoidSlice::core_coenergy_density,
         b * h - evaluate(law, b).energy_density}};
    for (const Column& column : columns) {
      const Published published{joined ? team : laws,
                                name + ", n I = " + table.text_at(i, "nI_A_per_m") + " A/m: " + column.what,
                                column.unit, table.text_at(i, column.name)};
      Cause cause;
      if (joined)
        cause = {column.by_our_curve - table.number_at(i, column.name), 1e-8 * std::abs(column.by_our_curve),
                 joined_reason};
      record.by_finite_elements(published, barred(low.*column.value, high.*column.value, other.*column.value),
                                cause);
    }
  }
}

}  // namespace coilpull
