// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/series_circuit.hpp"

#include <cmath>
#include <initializer_list>
#include <stdexcept>

#include "materials/constants.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// Row of data/published/magnet_pull_examples.csv: worked examples of textbooks, all without fringing.
double recomputed(const std::string& source, const std::string& data) {
  const CsvFile table = read_csv("data/published/magnet_pull_examples.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i)
    if (table.text_at(i, "source").find(source) != std::string::npos &&
        table.text_at(i, "data").find(data) != std::string::npos)
      return table.number_at(i, "recomputed");
  throw std::runtime_error("no row " + source + ", " + data);
}

}  // namespace

TEST_CASE("the worked examples of the textbooks come out as recomputed") {
  // Sadiku's ex. 8.16 is left out: the turns it prints count the drop of one of its two gaps only.
  // The table prints six digits or more.
  // Fitzgerald, Kingsley and Umans, ex. 1.1: 9 cm2, gap 0.5 mm, iron 300 mm of mu_r 70000
  const SeriesCircuit core{0, {{0.5e-3, 9e-4}}, {{0.3, 9e-4, LinearLaw(70000)}}};
  CHECK(ampere_turns_for(core, 1.0 * 9e-4) / 500 == near(recomputed("ex. 1.1", "mu_r=70000"), 1e-6));
  // ex. 1.7: H = 11 A/m at 1 T
  const SeriesCircuit by_field{0, {{0.5e-3, 9e-4}}, {{0.3, 9e-4, LinearLaw(1.0 / (mu0 * 11))}}};
  CHECK(ampere_turns_for(by_field, 1.0 * 9e-4) / 500 == near(recomputed("ex. 1.7", "Hc=11"), 1e-6));
  // ex. 1.2: 1000 turns of 10 A, two gaps of 1 cm, 2000 cm2
  const SeriesCircuit machine{1000 * 10, {{0.01, 0.2}, {0.01, 0.2}}};
  CHECK(flux(machine) == near(recomputed("ex. 1.2", "N=1000"), 5e-6));
  // Sadiku, ex. 8.14: mean radius 100 mm, section radius 10 mm, mu_r 1000, 200 turns
  const SeriesCircuit toroid{0, {}, {{2 * pi * 0.1, pi * 1e-4, LinearLaw(1000)}}};
  CHECK(ampere_turns_for(toroid, 0.5e-3) / 200 == near(recomputed("ex. 8.14", "toroid"), 1e-6));
}

TEST_CASE("a magnet pulls its plunger as the textbook says") {
  // Fitzgerald, ex. 3.9: Hc 940 kA/m, mu_rec 1.06, 8 mm; gaps 3 mm over 45 x 35 mm and 1 mm over 40 x 35 mm.
  // The book's force is that of two such faces, (Ni)^2 / (mu0 W1 D R^2).
  const double face = 0.045 * 0.035, fixed = 0.040 * 0.035;
  const SeriesCircuit circuit{
      0, {{3e-3, face}, {1e-3, fixed}}, {}, {{8e-3, fixed, 1.06 * mu0 * 940e3, 1.06}}};
  CHECK(-2 * gap_pull(circuit.gaps.front(), flux(circuit)) == near(recomputed("ex. 3.9", "Hc=940"), 1e-6));
}

TEST_CASE("the pull of a flux density is the printed one") {
  for (const char* b : {"0.5", "1.0", "1.5", "2.0"})
    CHECK(gap_pull_by_flux_density(std::atof(b), 1) ==
          near(recomputed("Maxwell pull", std::string("flux density ") + b), 1e-7));
}

TEST_CASE("the flux of a loop of any iron is the one that its ampere-turns drive") {
  for (const ListedLaw& entry : every_law())
    for (const double ampere_turns : {-3e4, -20.0, 0.5, 300.0, 1e5}) {
      INFO(entry.name << ", " << ampere_turns << " ampere-turns");
      const std::vector<IronPath> iron = {{0.1, 1e-4, entry.law}, {0.02, 0.5e-4, entry.law}};
      const SeriesCircuit mixed{ampere_turns, {{0.3e-3, 1e-4}}, iron, {{2e-3, 2e-4, 0.4, 1.1}}};
      CHECK(std::abs(ampere_turns_for(mixed, flux(mixed)) - ampere_turns) < 1e-6);  // the magnet drives 580
      const SeriesCircuit closed{ampere_turns, {}, iron};
      CHECK(ampere_turns_for(closed, flux(closed)) == near(ampere_turns, 1e-11));
    }
}

TEST_CASE("a plunger with good iron has the closed pull, and full iron takes its share") {
  // F = (NI)^2 / (2 mu0 pi a^2 R^2), R = g/(mu0 pi a^2) + b/(2 pi mu0 a l)
  const Plunger plunger{0.008, 2e-3, 0.2e-3, 0.015};
  const double amperes = 900, area = pi * 0.008 * 0.008;
  const double r = 2e-3 / (mu0 * area) + 0.2e-3 / (2 * pi * mu0 * 0.008 * 0.015);
  const auto pull = [](const SeriesCircuit& c) { return gap_pull(c.gaps.front(), flux(c)); };
  const double closed = amperes * amperes / (2 * mu0 * area * r * r);
  CHECK(pull(plunger_circuit(plunger, amperes)) == near(closed, 1e-14));
  // Iron of mu_r 1e6 and 0.1 m takes 1e-7 m of the gap's 2e-3: twice 5e-5 of the force.
  CHECK(pull(plunger_circuit(plunger, amperes, {{0.1, area, LinearLaw(1e6)}})) == near(closed, 1.1e-4));

  // Froehlich's law, J = Js H/(H + Ha), far past its knee: J = Js but for Ha/H, and Ampere's law gives
  // mu0 NI = B gap' + (B - Js) path, gap' the two gaps as one of the end's area. Ha/H = 100/2e6.
  const double path = 0.1, strong = 2e5, gap = r * mu0 * area;
  const SeriesCircuit full = plunger_circuit(plunger, strong, {{path, area, FroehlichLaw(2.0, 100)}});
  const double b = (mu0 * strong + 2.0 * path) / (gap + path);
  CHECK(pull(full) == near(b * b * area / (2 * mu0), 4e-4));
}

TEST_CASE("a loop of nothing and a piece without area are refused") {
  CHECK_THROWS_AS(flux(SeriesCircuit{}), std::invalid_argument);
  CHECK_THROWS_AS(flux(SeriesCircuit{10, {{1e-3, 0}}}), std::invalid_argument);
}
