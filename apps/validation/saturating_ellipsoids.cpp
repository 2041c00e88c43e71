// SPDX-License-Identifier: GPL-3.0-or-later
// Inside a ball or spheroid of any isotropic material in a uniform field H0 the field is uniform:
// H + N M(H) = H0. A ball is drawn exactly, a spheroid by arcs; three times its relative error of volume goes
// into the bar.
#include <algorithm>
#include <cmath>

#include "apps/validation/balls.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/published_laws.hpp"
#include "apps/validation/recompute.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double radius = 0.010;  // [m]

struct Body {
  Outline outline;
  double half_length;

  double missed() const {  ///< of the volume, relative
    const double exact = 4 * pi / 3 * radius * radius * half_length;
    return std::abs(volume(outline) / exact - 1);
  }
};

Body body_of(const std::string& words) {
  if (words == "sphere") return {ball(radius, 0), radius};
  if (words == "oblate spheroid 1:2") return {spheroid(radius, radius / 2, 16), radius / 2};
  const double times = words == "prolate spheroid 2:1" ? 2 : 10;
  return {spheroid(radius, times * radius, times > 2 ? 40 : 16), times * radius};
}

/// B of  H(B) + N (B/mu0 - H(B)) = H0,  whose left side rises.
double exact_inside(const SoftLaw& law, double n, double h0) {
  double low = 0, high = mu0 * h0 / n;
  for (int i = 0; i < 200; ++i) {
    const double b = 0.5 * (low + high), h = evaluate(law, b).h;
    (h + n * (b / mu0 - h) < h0 ? low : high) = b;
  }
  return low;
}

/// By how much our law's exact answer is off theirs, when theirs joins its points by straight lines.
Cause joining(const std::string& law, double ours, double theirs) {
  if (!is_joined_table(law)) return {};
  return {ours - theirs, 1e-9 * std::abs(theirs), joined_reason};
}

void compare(Record& record, const Source* source, const CsvFile& table, std::size_t row, BarredPath& path) {
  const std::string &name = table.text_at(row, "law"), &shape = table.text_at(row, "body");
  const double h0 = table.number_at(row, "H0_A_per_m"), n = table.number_at(row, "N");
  const bool is_ball = shape == "sphere";
  const SoftLaw law = published_law(name);
  const Body body = body_of(shape);
  const Box box = bounding_box(body.outline);
  const auto fields = [&](const std::vector<Solved>& solved) {
    std::vector<double> values{solved[0].b_z({0.2 * box.r_to, 0.5 * box.z_to})};
    if (is_ball) values.push_back(solved[0].b_z({0, 2 * radius}));
    return values;
  };
  std::vector<Measured> found =
      path.values(core_in_field(body.outline, law, h0, (is_ball ? 2 : 1) * box.z_to), 0, {{}}, fields);
  found[0].error += 3 * body.missed() * std::abs(found[0].value);

  const std::string words = name + ", " + shape + ", H0 = " + table.text_at(row, "H0_A_per_m") + " A/m: ";
  const double inside = exact_inside(law, n, h0);
  const Published of_b{source, words + "B inside", "T", table.text_at(row, "B_in_T")};
  const Cause cause = joining(name, inside, table.number_at(row, "B_in_T"));
  record.by_finite_elements(of_b, found[0], cause);
  if (!is_joined_table(name)) record.by_formula(of_b, inside, 1e-12 * inside + 3e-12 / n);
  if (!is_ball) return;
  const std::string column = "Bz_axis_at_2a_T(sphere)";
  const double j = inside - mu0 * evaluate(law, inside).h;
  const double outside = mu0 * h0 + 2 * j / 3 / 8;  // dipole of the even J: (2/3) J (a/z)^3 on the axis
  record.by_finite_elements({source, words + "B_z on the axis at two radii", "T", table.text_at(row, column)},
                            found[1], joining(name, outside, table.number_at(row, column)));
}

}  // namespace

void check_saturating_ellipsoids(Record& record) {
  const std::string file = "nonlinear_ellipsoids.csv";
  const Source* balls =
      record.source("saturating ball, exact",
                    "Ball of saturating material in a uniform field, H + M(H)/3 = H0 inside and a "
                    "dipole outside: exact for any law, scalar equation solved to 25 digits",
                    file);
  const Source* spheroids =
      record.source("Osborn 1945, spheroids",
                    "J. A. Osborn, Phys. Rev. 67 (1945) 351: demagnetising factors of spheroids; "
                    "with H + N M(H) = H0 exact for saturating material too",
                    file);
  const CsvFile table = read_published(file);
  BarredPath path(3);
  for (std::size_t i = 0; i < table.records.size(); ++i)
    compare(record, table.text_at(i, "body") == "sphere" ? balls : spheroids, table, i, path);
}

}  // namespace coilpull
