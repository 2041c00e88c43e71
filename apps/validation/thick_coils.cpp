// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "solver/closed_form/thick_coil.hpp"

namespace coilpull {
namespace {

void self_inductances(Record& record) {
  const Source* brooks = record.source("thick coils, self-inductance",
                                       "Self-inductance of coils of rectangular section (Brooks' coil, "
                                       "Grover's cases), recomputed by two routes: "
                                       "direct quadrature of Maxwell's formula and a Hankel transform",
                                       "coil_self_inductance.csv");
  const Source* print = record.source("Grover 1946, Brooks' coil",
                                      "Brooks' coil, L = 1.6994e-6 a N^2 with a the mean radius, after F. W. "
                                      "Grover, Inductance Calculations",
                                      "coil_self_inductance.csv");
  const CsvFile table = read_published("coil_self_inductance.csv");
  BarredPath path(3, {2.0});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const auto number = [&](const char* name) { return table.number_at(i, name); };
    const double half = 0.5 * number("length_m"), turns = number("N");
    const Box section{number("Ri_m"), number("Ro_m"), -half, half};
    const Published published{brooks, table.text_at(i, "coil") + ", " + table.text_at(i, "N") + " turns: L",
                              "H", table.text_at(i, "L_H")};
    const Measured linkage = path.values(
        in_air({coil_of("coil", section, turns)}), 0, {{1}},
        [](const std::vector<Solved>& solved) { return std::vector<double>{solved[0].linkage_Wb[0]}; })[0];
    record.by_finite_elements(published, linkage);
    const double formula = turns * turns * self_inductance(section);
    record.by_formula(published, formula, 1e-11 * formula);
    if (i == 0)
      record.by_formula({print, "L / (a N^2)", "uH/m", "1.6994", 0, Certainty::memory}, 1e6 * formula / 0.015,
                        1e-11);
  }
}

void pairs(Record& record) {
  const Source* source = record.source(
      "thick coil pairs",
      "Mutual inductance and its slope of two coaxial coils of rectangular section, recomputed by a "
      "Hankel transform and by Gauss's quadrature of Maxwell's formula",
      "coil_pairs.csv");
  const CsvFile table = read_published("coil_pairs.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const auto number = [&](const char* name) { return table.number_at(i, name); };
    const double gap = number("gap_m"), l1 = number("l1_m"), l2 = number("l2_m"), n1 = number("N1"),
                 n2 = number("N2");
    const Box lower{number("R1i_m"), number("R1o_m"), -l1, 0}, upper{number("R2i_m"), number("R2o_m"), 0, l2};
    const Box upper_there{upper.r_from, upper.r_to, gap, gap + l2};
    const ForceTable ours =
        swept(in_air({coil_of("lower", lower, n1), coil_of("upper", upper, n2)}), {gap}, {{1, 0}, {10, 10}});
    const std::string words = "two coils 10/20/10 mm of 200 turns, gap " + shortest(in_mm(gap)) + " mm: ";
    const Published of_m{source, words + "M", "H", table.text_at(i, "M_H"),
                         number("rel_diff_M") * number("M_H")};
    record.by_finite_elements(of_m, ours.rows[0].linkage_Wb[1]);
    const double m = n1 * n2 * mutual_inductance(lower, upper_there);
    record.by_formula(of_m, m, 1e-11 * m);
    const Measured force = ours.rows[1].force_N;
    const Published of_slope{source, words + "dM/dgap", "H/m", table.text_at(i, "dM_dgap_H_per_m"),
                             -number("rel_diff_dM") * number("dM_dgap_H_per_m")};
    record.by_finite_elements(of_slope, {force.value / 100, force.error / 100});
    const double slope = n1 * n2 * inductance_slope(upper_there, lower);
    record.by_formula(of_slope, slope, -1e-10 * slope);
  }
}

}  // namespace

void check_thick_coils(Record& record) {
  self_inductances(record);
  pairs(record);
}

}  // namespace coilpull
