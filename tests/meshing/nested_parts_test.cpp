// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/constants.hpp"
#include "meshing/mesh_section.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;

TEST_CASE("of boxes inside boxes each is meshed, and what lies in the air between them") {
  std::vector<Region> parts;
  for (const double size : {0.012, 0.008, 0.004}) {  // walls of 1 mm
    const double in = size - 1e-3;
    const Point corners[] = {{0, -size}, {size, -size}, {size, size}, {0, size},
                             {0, in},    {in, in},      {in, -in},    {0, -in}};
    Outline outline;
    for (int k = 0; k < 8; ++k) outline.edges.push_back({corners[k], corners[(k + 1) % 8]});
    parts.push_back({"box " + std::to_string(parts.size()), outline});
  }
  for (const double r : {1.5, 5.5, 9.5})  // [mm], one in each box; they touch nothing
    parts.push_back(ring("wire " + std::to_string(parts.size()), {r, 0}, {r - 0.5, 0}));
  const Section section = in_air(parts);
  const Mesh mesh = Mesher().mesh(section);
  for (const Region& part : section.parts) {
    INFO(part.name);
    // of a round wire twelve chords of 30 degrees, the longest that an edge may span, keep 3/pi;
    // 1e-8: they are spaced by a field of sizes, evenly to some 1e-5, and their area tells the square of that
    const bool straight = part.outline.edges.size() > 2;
    CHECK(meshed_area(mesh, part.name) ==
          near(area(part.outline) * (straight ? 1 : 3 / pi), straight ? 1e-12 : 1e-8));
    CHECK(nodes_shared(mesh, part.name, "air") > 0);
  }
}
