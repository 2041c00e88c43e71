// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/mesh_section.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("sizes that would take millions of edges are refused before anything is meshed") {
  Section section = in_air({block("core", 0, 5, 0, 30)});
  section.sizes.sources.push_back({{0.005, 0}, {0.005, 0.03}, 6e-9, 0});
  CHECK_THROWS_WITH_AS(Mesher().mesh(section), "the sizes asked for give more than 2 million edges",
                       MeshingFailed);
}

TEST_CASE("a mesh whose worst triangle is worse than asked for is refused with its place") {
  MesherOptions strict;
  strict.quality_above = 0.99;
  Mesher mesher;
  mesher = Mesher(strict);
  try {
    mesher.mesh(in_air({block("core", 0, 5, 0, 5)}));
    FAIL("a mesh of equilateral triangles");
  } catch (const MeshingFailed& failed) {
    const std::string words = failed.what();
    CHECK(words.find("frontal: a triangle of quality 0.") != std::string::npos);
    CHECK(words.find(", below 0.99, in ") != std::string::npos);
    CHECK(words.find(" at r = ") != std::string::npos);
  }
}
