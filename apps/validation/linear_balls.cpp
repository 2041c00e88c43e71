// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "apps/validation/balls.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double radius = 0.010, h0 = 1000;  // [m], [A/m]

Published row_of(const Source* source, const CsvFile& table, std::size_t row, const std::string& quantity,
                 const std::string& unit) {
  return {source, table.text_at(row, "body") + ", " + table.text_at(row, "parameter") + ": " + quantity, unit,
          table.text_at(row, "value")};
}

void linear_ball(Record& record, const Source* source, const CsvFile& table, std::size_t row,
                 BarredPath& path) {
  const double mu_r = number_after(table.text_at(row, "parameter"), "=");
  const Device device = core_in_field(ball(radius, 0), LinearLaw{mu_r}, h0, radius);
  const auto ratio = [](const std::vector<Solved>& solved) {
    return std::vector<double>{solved[0].b_z({0.4 * radius, 0.1 * radius}) / (mu0 * h0)};
  };
  record.by_finite_elements(row_of(source, table, row, "B inside / B0", "1"),
                            path.values(device, 0, {{}}, ratio)[0]);
  record.by_formula(row_of(source, table, row, "B inside / B0", "1"), 3 * mu_r / (mu_r + 2), 1e-15);
}

/// The row and the one behind it: what is left in the cavity, and the dipole outside.
void shell(Record& record, const Source* source, const CsvFile& table, std::size_t row, BarredPath& path) {
  const double bore = number_after(table.text_at(row, "body"), "=");
  const double mu_r = number_after(table.text_at(row, "parameter"), "=");
  const Device device = core_in_field(hollow_ball(radius, bore * radius), LinearLaw{mu_r}, h0, 1.5 * radius);
  const auto both = [](const std::vector<Solved>& solved) {
    const double outside = solved[0].b_z({0, 1.5 * radius}) / (mu0 * h0);  // 1 + 2 dipole / 1.5^3
    return std::vector<double>{solved[0].b_z({0, 0}) / (mu0 * h0), (outside - 1) * std::pow(1.5, 3) / 2};
  };
  const std::vector<Measured> found = path.values(device, 0, {{}}, both);
  record.by_finite_elements(row_of(source, table, row, "H in the cavity / H0", "1"), found[0]);
  record.by_finite_elements(row_of(source, table, row + 1, "dipole outside / (H0 b^3)", "1"), found[1]);
}

/// The row and the two behind it: B and H inside, B outside.
void magnetised_ball(Record& record, const Source* source, const CsvFile& table, std::size_t row,
                     BarredPath& path) {
  const double recoil = number_after(table.text_at(row, "parameter"), "="), remanence_T = 1.2;
  Device device;
  device.magnets = {{"ball", ball(radius, 0), MagnetLaw{0, remanence_T, recoil}, "published case"}};
  device.sensors = {{"far", {0, 2 * radius}}};
  const auto three = [&](const std::vector<Solved>& solved) {
    const double b = solved[0].b_z({0.4 * radius, 0.1 * radius});
    return std::vector<double>{b, (b - remanence_T) / (mu0 * recoil), solved[0].b_z({0, 2 * radius})};
  };
  const std::vector<Measured> found = path.values(device, 0, {{}}, three);
  record.by_finite_elements(row_of(source, table, row, "B inside", "T"), found[0]);
  record.by_finite_elements(row_of(source, table, row + 1, "H inside", "A/m"), found[1]);
  record.by_finite_elements(row_of(source, table, row + 2, "B_z on the axis at two radii", "T"), found[2]);
}

}  // namespace

void check_linear_balls(Record& record) {
  const std::string file = "linear_spheres.csv";
  const Source* balls =
      record.source("Jackson, permeable ball",
                    "J. D. Jackson, Classical Electrodynamics, 3rd ed., sec. 5.11: ball of constant "
                    "permeability in a uniform field, exact",
                    file);
  const Source* shells =
      record.source("Jackson, magnetic shielding",
                    "J. D. Jackson, Classical Electrodynamics, 3rd ed., sec. 5.12, eqs. 5.117 to "
                    "5.121: spherical shell in a uniform field, exact",
                    file);
  const Source* magnets =
      record.source("Jackson, magnetised ball",
                    "J. D. Jackson, Classical Electrodynamics, 3rd ed., sec. 5.10: evenly "
                    "magnetised ball, here also with recoil permeability, exact",
                    file);
  const CsvFile table = read_published(file);
  BarredPath path(3);
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& quantity = table.text_at(i, "quantity");
    if (table.text_at(i, "body") == "linear sphere") linear_ball(record, balls, table, i, path);
    if (quantity == "H_cavity/H0") shell(record, shells, table, i, path);
    if (quantity == "B_in_T") magnetised_ball(record, magnets, table, i, path);
  }
}

}  // namespace coilpull
