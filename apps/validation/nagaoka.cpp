// SPDX-License-Identifier: GPL-3.0-or-later
// The sheet becomes a winding of a twenty-fifth of its radius; what the thickness takes away, about
// (thickness / 3 radius) of L, is put back by the closed formulas of both.
#include "solver/closed_form/nagaoka.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "solver/closed_form/thick_coil.hpp"

namespace coilpull {

void check_nagaoka(Record& record) {
  const Source* lorenz = record.source("Lorenz 1879, current sheet",
                                       "L. Lorenz's exact inductance of a cylindrical current sheet as "
                                       "Nagaoka's coefficient K(D/l), recomputed and "
                                       "checked by integrating Maxwell's formula along the sheet (13 digits)",
                                       "nagaoka.csv");
  const Source* nagaoka = record.source(
      "Nagaoka 1909, printed table",
      "H. Nagaoka, J. Coll. Sci. Tokyo 27 (1909) art. 6, table of K as reprinted by Rosa and Grover, "
      "NBS Sci. Paper 169 (1916), read in transcriptions",
      "nagaoka.csv");
  const CsvFile table = read_published("nagaoka.csv");
  const double radius = 0.010;
  BarredPath path(3, {2.0});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double x = table.number_at(i, "D_over_l");
    const std::string what = "coefficient K at D/l = " + table.text_at(i, "D_over_l");
    const Published exact{lorenz, what, "1", table.text_at(i, "K_exact")};
    const std::string printed = table.text_at(i, "K_published");
    const double k = nagaoka_coefficient(x);
    record.by_formula(exact, k, 1e-13);
    if (x == 0 || printed.empty()) continue;

    const double length = 2 * radius / x;
    const Box section{0.98 * radius, 1.02 * radius, -0.5 * length, 0.5 * length};
    const double to_sheet = k / self_inductance(section);
    const Measured linkage = path.values(
        in_air({coil_of("sheet", section, 1)}), 0, {{1}},
        [](const std::vector<Solved>& solved) { return std::vector<double>{solved[0].linkage_Wb[0]}; })[0];
    record.by_finite_elements(exact, {linkage.value * to_sheet, linkage.error * to_sheet});
    const double slip = table.number_at(i, "K_exact") - table.number_at(i, "K_published");
    record.by_formula({nagaoka, what, "1", printed, 0, Certainty::read}, k, 1e-13,
                      {slip, 1e-11,
                       "The printed table was computed by hand and its last digits are known to be off; ours "
                       "meets the exact value of the same coefficient, which stands beside it in the file."});
  }
}

}  // namespace coilpull
