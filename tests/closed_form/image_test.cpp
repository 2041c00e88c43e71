// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/image.hpp"

#include <cmath>
#include <stdexcept>

#include "solver/closed_form/thick_coil.hpp"
#include "tests/closed_form/printed.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {
double permeability_in(const std::string& words) {
  const bool infinite = words.find("mu_r=inf") != std::string::npos;
  return infinite ? infinite_permeability : number_after(words, "half-space mu_r=");
}
}  // namespace

TEST_CASE("magnets and loops over iron are pulled by the published forces") {
  // data/published/axial_forces.csv, cases G and H, recomputed there by two routes.
  const CsvFile table = read_csv("data/published/axial_forces.csv");
  int magnets = 0, loops = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string &which = table.text_at(i, "case"), &words = table.text_at(i, "description");
    const double height = 1e-3 * number_after(table.text_at(i, "position"), "mm=");
    INFO(words << ", " << height);
    if (which == "G-halfspace") {
      const AxialMagnet magnet{{0, 0.010, height, height + 0.010}, 1};
      CHECK(printed(table, i, "F_N").agrees(force_by_iron(magnet, 0, permeability_in(words))));
      ++magnets;
    } else if (which == "H-loop-halfspace") {
      CHECK(printed(table, i, "F_N")
                .agrees(force_by_iron(Loop{0.020, height}, 1000, 0, permeability_in(words))));
      ++loops;
    }
  }
  CHECK(magnets == 12);
  CHECK(loops == 6);
}

TEST_CASE("the field of source and image meets infinitely permeable iron at right angles") {
  const AxialMagnet magnet{{0.002, 0.006, 0.003, 0.009}, 1.2}, image = image_of(magnet, 0.001);
  const Box coil{0.007, 0.011, 0.002, 0.012};
  for (const double r : {0.001, 0.005, 0.02}) {
    const Point at{r, 0.001};
    const SourceField one = flux_density(magnet, at), other = flux_density(image, at);
    CHECK(std::abs(one.br_T + other.br_T) < 1e-13 * std::abs(one.bz_T));
    CHECK(one.bz_T == near(other.bz_T, 1e-12));
    CHECK(flux_density(coil, 100, at).br_T ==
          near(-flux_density(mirrored(coil, 0.001), 100, at).br_T, 1e-12));
  }
}

TEST_CASE("iron pulls a thick coil as its loops pull, from either side, and not at all without contrast") {
  // A winding thin against its height is a loop: misses (section/height)^2.
  const Box thin{0.01999, 0.02001, 0.00999, 0.01001};
  CHECK(force_by_iron(thin, 1000, 0) == near(force_by_iron(Loop{0.02, 0.01}, 1000, 0), 1e-5));
  const Box coil{0.007, 0.011, 0.002, 0.012};
  CHECK(force_by_iron(coil, 500, 0.0015, 50) ==
        near(-force_by_iron(mirrored(coil, 0.0015), 500, 0.0015, 50), 1e-12));
  CHECK(force_by_iron(coil, 500, 0.0015, 1) == 0);
}

TEST_CASE("iron that would cut through the source is refused") {
  CHECK_THROWS_AS(force_by_iron(AxialMagnet{{0, 0.01, 0, 0.01}, 1}, 0.004), std::invalid_argument);
  CHECK_NOTHROW(force_by_iron(AxialMagnet{{0, 0.01, 0, 0.01}, 1}, 0));
}

TEST_CASE("a long magnet on iron holds by B^2 / (2 mu0) over its face") {
  // At contact with its image it is a magnet twice as long, cut in the middle, where B = Br but for the far
  // ends: 7/8 of (a/l)^2 is missing.
  const double radius = 0.001, length = 1.0;
  const double pull = -force_by_iron(AxialMagnet{{0, radius, 0, length}, 1.3}, 0);
  CHECK(pull == near(1.3 * 1.3 * radius * radius / 8e-7, 1e-6));
}
