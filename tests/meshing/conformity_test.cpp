// SPDX-License-Identifier: GPL-3.0-or-later
// A square of two faces, a triangle each: every way in which triangles can fail to border on its edges.
#include "meshing/detail/conformity.hpp"

#include <doctest/doctest.h>

using namespace coilpull::detail;

namespace {

/// Nodes 0 to 3 around the square; the fifth edge is the diagonal from 0 to 2, which both faces share.
struct Square {
  PlanarMap map;
  EdgeMesh edges;
  Square() {
    edges.segments = {{0, 1, 0}, {1, 2, 1}, {2, 3, 2}, {3, 0, 3}, {0, 2, 4}};
    edges.of_curve = {{0}, {1}, {2}, {3}, {4}};
    map.faces = {{0, {{{0, false}, {1, false}, {4, true}}}}, {1, {{{4, false}, {2, false}, {3, false}}}}};
  }
};

std::string gap(const FilledFaces& filled) {
  const Square square;
  const auto found = find_gap(square.map, square.edges, filled);
  return found ? found->fact + " " + std::to_string(found->node) : "";
}

}  // namespace

TEST_CASE("triangles that do not border on the edges of a drawing as they must are found out") {
  CHECK(gap({{{0, 1, 2}, {0, 2, 3}}, {0, 1}}) == "");
  CHECK(gap({{{0, 1, 2}}, {0}}) == "an edge of the drawing without the triangle it borders on 0");
  CHECK(gap({{{0, 1, 2}, {0, 2, 3}}, {1, 0}}) ==
        "an edge of the drawing without the triangle it borders on 0");
  CHECK(gap({{{0, 1, 2}, {0, 2, 3}, {0, 1, 4}}, {0, 1, 0}}) == "two triangles on the same side of an edge 0");
  CHECK(gap({{{0, 1, 2}, {0, 2, 3}, {2, 1, 4}}, {0, 1, 1}}) ==
        "a triangle on the wrong side of an edge of the drawing 1");
  CHECK(gap({{{0, 1, 2}, {0, 2, 3}, {4, 5, 6}}, {0, 1, 0}}) ==
        "an inner edge with a triangle on one side only 4");
}
