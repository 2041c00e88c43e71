// SPDX-License-Identifier: GPL-3.0-or-later
// Every shape against the volume that a school book gives (Pappus and Guldin for turned sections).
#include <cmath>
#include <string>

#include "apps/device_file/read_device_file.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"

namespace coilpull {

namespace {

Outline shape(const std::string& line) {
  return read_device_text("[core.a]\nmaterial = { law = \"linear\", mu_r = 10 }\n" + line, "test.toml", "")
      .cores[0]
      .outline;
}

double mm3(const Outline& outline) { return 1e9 * volume(outline); }

double worst_arc(const Outline& outline) {
  double worst = 0;
  for (const Edge& edge : outline.edges) {
    if (!edge.centre) continue;
    const double a = std::hypot(edge.from.r - edge.centre->r, edge.from.z - edge.centre->z);
    const double b = std::hypot(edge.to.r - edge.centre->r, edge.to.z - edge.centre->z);
    worst = std::max(worst, std::fabs(a - b) / a);
  }
  return worst;
}

constexpr double rounding = 1e-12;  // closed formulas on both sides

}  // namespace

TEST_CASE("centre and length say the same as from and to") {
  const std::string radius = "cylinder = { radius_mm = 2, ", both = "centre_mm = 3.2, length_mm = 12.2 }";
  const Box expected = bounding_box(shape(radius + "from_mm = -2.9, to_mm = 9.3 }"));
  for (const std::string& start : {radius, std::string("tube = { inner_radius_mm = 1, outer_radius_mm = 2, "),
                                   std::string("cone = { from_radius_mm = 1, to_radius_mm = 2, ")}) {
    const Box box = bounding_box(shape(start + both));
    CHECK(box.z_from == near(expected.z_from, 1e-15));  // 6.1 from 3.2 is not the double nearest to -2.9
    CHECK(box.z_to == near(expected.z_to, 1e-15));
  }
  const Box mixed = bounding_box(shape(radius + "centre_m = 0.0032, length_mm = 12.2 }"));
  CHECK(mixed.z_to == near(expected.z_to, 1e-15));
}

TEST_CASE("a part drawn by centre and length meets its neighbour's face to the last bit") {
  for (int half = 1; half <= 200; ++half) {
    const std::string length = std::to_string(2 * half) + " }";
    const Box box = bounding_box(shape("cylinder = { radius_mm = 2, centre_mm = 7, length_mm = " + length));
    CHECK(box.z_to == bounding_box(shape("cylinder = { radius_mm = 2, from_mm = -300, to_mm = " +
                                         std::to_string(7 + half) + " }"))
                          .z_to);
  }
}

TEST_CASE("a full cone holds a third of its cylinder, a truncated one what is left of the tip") {
  const std::string z = "from_mm = 1, to_mm = 13 }";
  CHECK(mm3(shape("cone = { from_radius_mm = 5, to_radius_mm = 0, " + z)) ==
        near(pi * 25 * 12 / 3, rounding));
  CHECK(mm3(shape("cone = { from_diameter_mm = 0, to_diameter_mm = 10, " + z)) ==
        near(pi * 25 * 12 / 3, rounding));
  CHECK(mm3(shape("cone = { from_radius_mm = 5, to_radius_mm = 2, " + z)) ==
        near(pi * 12 * (25 + 10 + 4) / 3, rounding));
  CHECK(mm3(shape("cone = { from_radius_mm = 5, to_radius_mm = 2, inner_radius_mm = 1, " + z)) ==
        near(pi * 12 * 13 - pi * 12, rounding));
  CHECK(shape("cone = { from_radius_mm = 5, to_radius_mm = 2, inner_radius_mm = 2, " + z).edges.size() == 3);
}

TEST_CASE("a ball, drawn as such or as a profile of two quarter arcs, holds 4/3 pi R^3") {
  const double exact = 4 * pi * 64 / 3;
  CHECK(mm3(shape("ball = { radius_mm = 4, centre_mm = -2 }")) == near(exact, rounding));
  const std::string quarters =
      "profile = [{ r_mm = 0, z_mm = -6 }, { r_mm = 4, z_mm = -2, convex_radius_mm = 4 }, "
      "{ r_mm = 0, z_mm = 2, convex_diameter_mm = 8 }]";
  CHECK(mm3(shape(quarters)) == near(exact, rounding));
  const std::string half_turn =
      "profile = [{ r_mm = 0, z_mm = 2 }, { r_mm = 0, z_mm = 0 }, { r_mm = 0, z_mm = -6, through_r_mm = 4, "
      "through_z_mm = -2 }]";
  CHECK_THROWS_AS(shape(half_turn), BadDevice);  // the arc starts at z = 0 and passes beyond the axis
}

TEST_CASE("a chamfer takes a ring of triangular section away, a fillet what is left beside its quarter") {
  // Pappus: area times 2 pi times the distance of its centroid. Chamfer c: c^2/2 at c/3 from the corner.
  // Fillet R: R^2 (1 - pi/4); its centroid lies R (1/2 - pi/4 + 1/3... ) : moments of square minus quarter.
  const double full = pi * 25 * 10, c = 0.5;
  const double chamfer = c * c / 2 * 2 * pi * (5 - c / 3);
  CHECK(mm3(shape("cylinder = { radius_mm = 5, from_mm = 0, to_mm = 10, chamfer_mm = 0.5 }")) ==
        near(full - 2 * chamfer, rounding));
  CHECK(mm3(shape("cylinder = { radius_mm = 5, from_mm = 0, to_mm = 10, chamfer_to_outer_mm = 0.5 }")) ==
        near(full - chamfer, rounding));
  // From the fillet's centre line at 5 - R: square R^3/2, quarter disc R^3/3 about that line.
  const double rest = 0.25 * (1 - pi / 4), moment = 0.125 * (1. / 2 - 1. / 3);
  const double fillet = 2 * pi * (rest * 4.5 + moment);
  CHECK(mm3(shape("cylinder = { radius_mm = 5, from_mm = 0, to_mm = 10, fillet_mm = 0.5 }")) ==
        near(full - 2 * fillet, rounding));
  CHECK(mm3(shape("cylinder = { radius_mm = 5, from_mm = 0, to_mm = 10, fillet_mm = 0.5, "
                  "chamfer_from_outer_mm = 0.5 }")) == near(full - fillet - chamfer, rounding));
  CHECK(mm3(shape("cylinder = { radius_mm = 5, from_mm = 0, to_mm = 10, fillet_mm = 0.5, "
                  "fillet_from_outer_mm = 0 }")) == near(full - fillet, rounding));
  const double inside = 2 * pi * (rest * 3.5 - moment);  // at a bore of 3 the same ring, mirrored
  CHECK(mm3(shape("tube = { inner_radius_mm = 3, outer_radius_mm = 5, from_mm = 0, to_mm = 10, "
                  "fillet_to_inner_mm = 0.5 }")) == near(pi * 16 * 10 - inside, rounding));
}

TEST_CASE("cuts may meet: a tube with full round ends, a rod with a half ball at its end") {
  // Pappus: two half discs of radius 1 about the middle of the wall, 2 pi * 4.
  const Outline tube =
      shape("tube = { inner_radius_mm = 3, outer_radius_mm = 5, from_mm = 0, to_mm = 10, fillet_mm = 1 }");
  CHECK(mm3(tube) == near((2 * 8 + pi) * 2 * pi * 4, rounding));
  CHECK(tube.edges.size() == 6);
  const Outline rod = shape("cylinder = { radius_mm = 5, from_mm = 0, to_mm = 20, fillet_to_outer_mm = 5 }");
  CHECK(mm3(rod) == near(pi * 25 * 15 + 2 * pi * 125 / 3, rounding));
}

TEST_CASE("a fillet at the tip of a cone is a cap of a ball that touches the cone") {
  // Half angle a = 45 degrees, ball of radius R: it touches at R/tan a from the tip along the cone.
  // Lost: cone of height R cos(a)/tan(a) minus the cap above that circle, of height R (1 - sin a).
  const double radius = 2, a = pi / 4, foot = radius / std::tan(a);
  const double cone = pi * std::pow(foot * std::sin(a), 2) * foot * std::cos(a) / 3;
  const double h = radius * (1 - std::sin(a)), cap = pi * h * h * (3 * radius - h) / 3;
  const Outline blunt = shape(
      "cone = { from_radius_mm = 10, to_radius_mm = 0, from_mm = 0, to_mm = 10, fillet_to_outer_mm = 2 }");
  CHECK(mm3(blunt) == near(pi * 1000 / 3 - cone + cap, rounding));
  CHECK(worst_arc(blunt) < rounding);
  // The same tip as a hole from below: what the fillet takes from one it leaves in the other.
  const Outline hole = shape(
      "profile = [{ r_mm = 0, z_mm = 10, fillet_mm = 2 }, { r_mm = 10, z_mm = 0 }, { r_mm = 10, z_mm = 20 }, "
      "{ r_mm = 0, z_mm = 20 }]");
  CHECK(mm3(hole) == near(pi * 2000 - mm3(blunt), rounding));
}

TEST_CASE("a profile means the same whichever way round it is drawn") {
  const std::string a = "{ r_mm = 2, z_mm = 0 }", b = "{ r_mm = 6, z_mm = 0, chamfer_mm = 0.4 }";
  const std::string c = "{ r_mm = 6, z_mm = 5", d = "{ r_mm = 2, z_mm = 5, fillet_mm = 0.3 }";
  const std::string dent = ", concave_radius_mm = 3 }";
  const double one = mm3(shape("profile = [" + a + ", " + b + ", " + c + " }, " + d + "]"));
  CHECK(mm3(shape("profile = [" + d + ", " + c + " }, " + b + ", " + a + "]")) == near(one, rounding));
  // an arc belongs to the edge that leads to its point: from (2, 0), or from (2, 5)
  const std::string plain_a = "{ r_mm = 2, z_mm = 0", plain_b = "{ r_mm = 6, z_mm = 0";
  const double up = mm3(
      shape("profile = [" + plain_a + " }, " + plain_b + " }, " + c + dent + ", { r_mm = 2, z_mm = 5 }]"));
  const double down = mm3(
      shape("profile = [{ r_mm = 2, z_mm = 5 }, " + c + " }, " + plain_b + dent + ", " + plain_a + " }]"));
  CHECK(up == near(down, rounding));
  // Segment of radius 3 over a chord of 5, inwards from r = 6: area 9/2 (t - sin t), sin(t/2) = 5/6, centroid
  // chord^3 / (12 area) from the arc's centre, which lies sqrt(9 - 6.25) outside of r = 6.
  const double t = 2 * std::asin(5. / 6), segment = 4.5 * (t - std::sin(t));
  const double at = 6 + std::sqrt(2.75) - 125 / (12 * segment);
  CHECK(up == near(pi * 32 * 5 - segment * 2 * pi * at, rounding));
}

TEST_CASE("an arc through a point may run more than half round") {
  // A ring of round section, radius 2 about r = 6, cut off by its chord from (5, -y) to (5, y).
  const double y = std::sqrt(3.0), segment = 2 * (2 * pi / 3 - std::sin(2 * pi / 3));
  char text[200];
  std::snprintf(
      text, sizeof text,
      "profile = [{ r_mm = 5, z_mm = %.17g, through_r_mm = 8, through_z_mm = 0 }, { r_mm = 5, z_mm = 0 }, "
      "{ r_mm = 5, z_mm = %.17g }]",
      -y, y);
  const Outline outline = shape(text);
  const double lost = segment * 2 * pi * (6 - std::pow(2 * y, 3) / (12 * segment));
  CHECK(mm3(outline) == near(pi * 4 * 2 * pi * 6 - lost, rounding));
  for (const Edge& edge : outline.edges)
    if (edge.centre) CHECK(worst_arc(Outline{{edge}}) < rounding);
}

TEST_CASE("diameters and inches mean what they say in profiles") {
  CHECK(
      mm3(shape(
          "profile = [{ r_in = 0, z_in = 0 }, { diameter_in = 1, z_mm = 0 }, { diameter_mm = 25.4, z_in = 1 "
          "}, { r_mm = 0, z_mm = 25.4 }]")) == near(pi * std::pow(12.7, 2) * 25.4, rounding));
}

TEST_CASE("the ends of every arc are equally far from its centre, small fillets far from z = 0 included") {
  const Outline far = shape(
      "profile = [{ r_mm = 0, z_mm = 100 }, { r_mm = 5.3, z_mm = 100, fillet_mm = 0.7 }, { r_mm = 7.1, "
      "z_mm = "
      "112.3, fillet_mm = 0.31 }, { r_mm = 2, z_mm = 111 }, { r_mm = 0, z_mm = 120, convex_radius_mm = "
      "9.7 }]");
  CHECK(worst_arc(far) < rounding);
  CHECK(area(far) > 0);
}

}  // namespace coilpull
