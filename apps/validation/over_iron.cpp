// SPDX-License-Identifier: GPL-3.0-or-later
// Over a half-space of constant permeability a magnet or a ring meets its mirror image, (mu_r - 1)/(mu_r + 1)
// times as strong. The half-space becomes a disc of 40 radii of the source: a field that falls like 1/d^3
// misses 40^-3 = 1.6e-5 of the image. An evenly magnetised ball over a ring is pulled like a point dipole.
#include <algorithm>
#include <cmath>

#include "apps/validation/balls.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "materials/constants.hpp"
#include "solver/closed_form/image.hpp"

namespace coilpull {
namespace {

constexpr double disc_radii = 40;
constexpr double endless = 1e7;  ///< stands for infinite permeability: 2e-7 less than it

/// The gap is a thousandth of the mesh: it has to be resolved none the less.
Resolution down_to_the_gap() {
  Resolution resolution;
  resolution.fineness = 1.5;
  resolution.least = 1e-4;
  return resolution;
}

Core half_space(double source_radius, double mu_r) {
  const double far = disc_radii * source_radius;
  return {"iron", rectangle(0, far, -far, 0), LinearLaw{mu_r}, "published case"};
}

double permeability(const std::string& words) {
  return words.find("mu_r=inf") != std::string::npos ? endless : number_after(words, "half-space mu_r=");
}

/// One comparison whose bar waits for those of its family.
struct Waiting {
  Published published;
  double exact, formula_bar;
};

void compare(Record& record, const std::vector<Waiting>& rows, std::vector<Measured> found) {
  level_bars(found);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    record.by_finite_elements(rows[i].published, found[i]);
    record.by_formula(rows[i].published, rows[i].exact, rows[i].formula_bar * std::abs(rows[i].exact));
  }
}

std::vector<double> force_of(const std::vector<Solved>& solved) { return {solved[0].force_N}; }

Published row_of(const Source* source, const CsvFile& table, std::size_t row) {
  const std::string& words = table.text_at(row, "description");
  return {source, words + ", " + table.text_at(row, "position") + ": force", "N", table.text_at(row, "F_N")};
}

/// The bar with what the disc misses of the half-space.
Measured on_disc(const Measured& force, double peak) {
  return {force.value, force.error + 1.6e-5 * std::abs(peak) + std::abs(force.value) * 2 / endless};
}

void magnet_over_iron(Record& record, const Source* source, const CsvFile& table) {
  BarredPath path(3, down_to_the_gap());
  std::vector<Waiting> rows;
  std::vector<Measured> found;
  const double radius = 10e-3, length = 10e-3;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != "G-halfspace") continue;
    const double mu_r = permeability(table.text_at(i, "description"));
    const double gap = 1e-3 * number_after(table.text_at(i, "position"), "gap_mm=");
    const Box section{0, radius, gap, gap + length};
    Device device = in_air({}, {magnet_of("magnet", section, 1.0)});
    device.cores = {half_space(radius, mu_r)};
    device.moving = {"magnet"};
    const Published published = row_of(source, table, i);
    const double exact =
        force_by_iron(AxialMagnet{section, 1.0}, 0, mu_r == endless ? infinite_permeability : mu_r);
    const double peak = force_by_iron(AxialMagnet{{0, radius, 1e-3, 1e-3 + length}, 1.0}, 0, mu_r);
    rows.push_back({published, exact, 1e-11});
    found.push_back(on_disc(path.values(device, 0, {{}}, force_of)[0], peak));
  }
  compare(record, rows, found);
}

void ring_over_iron(Record& record, const Source* source, const CsvFile& table) {
  BarredPath path(3, down_to_the_gap());
  std::vector<Waiting> rows;
  std::vector<Measured> found;
  const double radius = 20e-3, half = 0.5e-3, amperes = 1000;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != "H-loop-halfspace") continue;
    const double mu_r = permeability(table.text_at(i, "description"));
    const double height = 1e-3 * number_after(table.text_at(i, "position"), "height_mm=");
    const Box section{radius - half, radius + half, height - half, height + half};
    Device device = in_air({coil_of("ring", section, 1)});
    device.cores = {half_space(radius, mu_r)};
    device.moving = {"ring"};
    const Published published = row_of(source, table, i);
    const double exact = force_by_iron(Loop{radius, height}, amperes, 0, mu_r);
    const double to_ring = exact / force_by_iron(section, amperes, 0, mu_r);
    const double peak = force_by_iron(Loop{radius, 2e-3}, amperes, 0, mu_r);
    const Measured force = path.values(device, 0, {{amperes}}, force_of)[0];
    rows.push_back({published, exact, 1e-10});
    found.push_back(on_disc({force.value * to_ring, force.error * to_ring}, peak));
  }
  compare(record, rows, found);
}

/// dB_z/dz on the axis at height z over a ring of 1 A: -3/2 mu0 a^2 z / (a^2 + z^2)^(5/2).
double axis_slope(double a, double z) { return -1.5 * mu0 * a * a * z / std::pow(a * a + z * z, 2.5); }

void ball_over_ring(Record& record, const Source* source, const CsvFile& table) {
  BarredPath path(4, {1.5});
  std::vector<Waiting> rows;
  std::vector<Measured> found;
  const double radius = 5e-3, ring = 20e-3, half = 0.25e-3, amperes = 1000;
  const double moment = 4 * pi / 3 * std::pow(radius, 3) * 1.2 / mu0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "case") != "I-sphere-loop") continue;
    const double z = 1e-3 * number_after(table.text_at(i, "position"), "=");
    Device device = in_air({coil_of("ring", {ring - half, ring + half, -half, half}, 1)});
    device.magnets = {{"ball", ball(radius, z), MagnetLaw{0, 1.2, 1}, "published case"}};
    device.moving = {"ball"};
    const Published published = row_of(source, table, i);
    const double exact = amperes * moment * axis_slope(ring, z);
    // mean over the section by Gauss's rule of two points a direction, exact to (half/ring)^4
    const double off = half / std::sqrt(3.0);
    double wound = 0;
    for (const double r : {ring - off, ring + off})
      for (const double there : {z - off, z + off}) wound += 0.25 * amperes * moment * axis_slope(r, there);
    const Measured force = path.values(device, 0, {{amperes}}, force_of)[0];
    rows.push_back({published, exact, 1e-12});
    found.push_back({force.value * exact / wound, force.error * exact / wound});
  }
  compare(record, rows, found);
}

}  // namespace

void check_forces_over_iron(Record& record) {
  const std::string file = "axial_forces.csv";
  const Source* image =
      record.source("mirror image, magnet",
                    "Pull of a cylinder magnet by a half-space of iron: method of images (Jackson, "
                    "Classical Electrodynamics), two routes",
                    file);
  const Source* ring_image =
      record.source("mirror image, ring",
                    "Pull of a ring of current by a half-space of iron: Maxwell's formula for "
                    "the ring and its image",
                    file);
  const Source* dipole =
      record.source("magnetised ball as a dipole",
                    "Force m dB/dz on an evenly magnetised ball over a ring of current, exact; "
                    "checked by quadrature over rings",
                    file);
  const CsvFile table = read_published(file);
  magnet_over_iron(record, image, table);
  ring_over_iron(record, ring_image, table);
  ball_over_ring(record, dipole, table);
}

}  // namespace coilpull
