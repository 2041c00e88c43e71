// SPDX-License-Identifier: GPL-3.0-or-later
// A ring becomes a winding of square section of a fiftieth of its radius. What the section changes is taken
// off again by the ratio of the closed formulas for rings and for such windings.
#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "solver/closed_form/thin_loop.hpp"

namespace coilpull {
namespace {

constexpr double amperes = 1000;

Box thin(double radius, double z) {
  const double half = 0.01 * radius;
  return {radius - half, radius + half, z - half, z + half};
}

}  // namespace

void check_filaments(Record& record) {
  const Source* maxwell = record.source(
      "Maxwell 1873, two rings",
      "J. C. Maxwell, A Treatise on Electricity and Magnetism, 1873, art. 701: mutual inductance M of two "
      "coaxial "
      "rings and its slope with their distance, by elliptic integrals and by direct quadrature to 18 digits",
      "filaments.csv");
  const Source* print = record.source("Grover 1946, one pair of rings",
                                      "The pair of rings of the first row as printed in the literature after "
                                      "F. W. Grover, Inductance Calculations",
                                      "filaments.csv");
  const CsvFile table = read_published("filaments.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double a = table.number_at(i, "radius1_m"), b = table.number_at(i, "radius2_m");
    const double d = table.number_at(i, "spacing_m");
    const std::string words = "rings of radius " + shortest(in_mm(a)) + " and " + shortest(in_mm(b)) +
                              " mm, " + shortest(in_mm(d)) + " mm apart: ";
    const Loop lower{a, 0}, upper{b, d};
    const Box lower_section = thin(a, 0), upper_section = thin(b, d);
    const Device device = in_air({coil_of("lower", lower_section, 1), coil_of("upper", upper_section, 1)});
    const ForceTable ours = swept(device, {0}, {{amperes, 0}, {amperes, amperes}});

    const double m = mutual_inductance(lower, upper);
    const double to_ring = m / mutual_inductance(lower_section, upper_section) / amperes;
    const Measured linkage = ours.rows[0].linkage_Wb[1];
    const Published of_m{maxwell, words + "M", "H", table.text_at(i, "M_H")};
    record.by_finite_elements(of_m, {linkage.value * to_ring, linkage.error * to_ring});
    record.by_formula(of_m, m, 1e-12 * m);
    if (d == 0) continue;  // no force between coplanar rings, by symmetry
    const double slope = inductance_slope(upper, lower);
    const double slope_to_ring = slope / inductance_slope(upper_section, lower_section) / (amperes * amperes);
    const Measured force = ours.rows[1].force_N;
    const Published of_slope{maxwell, words + "dM/dd", "H/m", table.text_at(i, "dM_dd_H_per_m")};
    record.by_finite_elements(of_slope, {force.value * slope_to_ring, force.error * slope_to_ring});
    record.by_formula(of_slope, slope, -1e-12 * slope);
    if (i == 0)
      record.by_formula({print, words + "M", "nH", "248.79", 0, Certainty::memory}, 1e9 * m, 1e-3 * m);
  }
}

}  // namespace coilpull
