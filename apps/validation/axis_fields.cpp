// SPDX-License-Identifier: GPL-3.0-or-later
// Thick coils are solved as they are. A sheet becomes a winding of a twenty-fifth, a ring a square of a
// fiftieth of its radius; the ratio of the closed formulas takes the thickness off again.
#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "solver/closed_form/current_sheet.hpp"
#include "solver/closed_form/thick_coil.hpp"
#include "solver/closed_form/thin_loop.hpp"

namespace coilpull {
namespace {

using OnAxis = std::function<double(double z)>;

/// Rows whose name starts so, against windings of some turns that carry 1 A.
struct AxisCase {
  const char* starts;
  std::vector<Box> sections;
  double turns;
  OnAxis formula;  ///< [T], of the thing as published
};

Device in_series(const AxisCase& one, const std::vector<double>& heights) {
  Device device = in_air({});
  for (const Box& section : one.sections) {
    device.coils.push_back(coil_of("coil " + std::to_string(device.coils.size()), section, one.turns));
    device.coils.back().circuit = "series";
  }
  device.circuits = {"series"};
  for (const double z : heights) device.sensors.push_back({"at " + shortest(z), {0, z}});
  return device;
}

AxisCase thick(const char* starts, double inner, double outer, double length, double ampere_turns) {
  const Box section{inner, outer, -0.5 * length, 0.5 * length};
  return {
      starts, {section}, ampere_turns, [=](double z) { return axis_flux_density(section, ampere_turns, z); }};
}

AxisCase sheet(const char* starts, double radius, double length) {
  const CurrentSheet thin{radius, -0.5 * length, 0.5 * length};
  return {starts, {{0.98 * radius, 1.02 * radius, thin.z_from, thin.z_to}}, 1000, [=](double z) {
            return axis_flux_density(thin, 1000, z);
          }};
}

AxisCase helmholtz(const char* starts, double radius, double turns) {
  const double half = 0.01 * radius, middle = 0.5 * radius;
  std::vector<Box> sections;
  for (const double z : {-middle, middle})
    sections.push_back({radius - half, radius + half, z - half, z + half});
  return {starts, sections, turns, [=](double z) {
            return flux_density(Loop{radius, -middle}, turns, {0, z}).bz_T +
                   flux_density(Loop{radius, middle}, turns, {0, z}).bz_T;
          }};
}

void compare(Record& record, const Source* source, const CsvFile& table, const AxisCase& one,
             BarredPath& path) {
  std::vector<std::size_t> rows;
  std::vector<double> heights;
  for (std::size_t i = 0; i < table.records.size(); ++i)
    if (table.text_at(i, "coil").rfind(one.starts, 0) == 0) {
      rows.push_back(i);
      heights.push_back(table.number_at(i, "z_m"));
    }
  const std::vector<Measured> found =
      path.values(in_series(one, heights), 0, {{1}}, [&](const std::vector<Solved>& solved) {
        std::vector<double> values;
        values.reserve(heights.size());
        for (const double z : heights) values.push_back(solved[0].b_z({0, z}));
        return values;
      });
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const double z = heights[k], exact = one.formula(z);
    double wound = 0;
    for (const Box& section : one.sections) wound += axis_flux_density(section, one.turns, z);
    const double reduced = exact / wound;
    const Published published{source,
                              table.text_at(rows[k], "coil") + ", z = " + shortest(in_mm(z)) + " mm: B_z",
                              "T", table.text_at(rows[k], "Bz_T")};
    record.by_finite_elements(published, {found[k].value * reduced, found[k].error * reduced});
    record.by_formula(published, exact, 1e-12 * exact);
  }
}

}  // namespace

void check_axis_fields(Record& record) {
  const std::string file = "coil_axis_fields.csv";
  const Source* coils =
      record.source("thick solenoids, axis field",
                    "B on the axis of thick solenoids (Montgomery, Solenoid Magnet Design, 1969), "
                    "closed form and quadrature",
                    file);
  const Source* sheets = record.source("Biot and Savart, current sheets",
                                       "B on the axis of thin solenoids, closed form and quadrature", file);
  const Source* pairs =
      record.source("Helmholtz pairs", "B on the axis of two rings a radius apart, Biot and Savart", file);
  const Source* manuals =
      record.source("e/m apparatus manuals",
                    "Field at the centre of the pair of 130 turns and radius 150 mm, as quoted "
                    "in manuals of that apparatus",
                    file);
  const CsvFile table = read_published(file);
  BarredPath path(3, {2.0});
  compare(record, coils, table, thick("thick solenoid C:", 0.006, 0.012, 0.020, 500), path);
  compare(record, coils, table, thick("thick solenoid B:", 0.010, 0.015, 0.020, 100), path);
  compare(record, coils, table, thick("thick solenoid Brooks", 0.010, 0.020, 0.010, 1000), path);
  compare(record, sheets, table, sheet("thin solenoid R=10 l=40 mm", 0.010, 0.040), path);
  compare(record, sheets, table, sheet("thin solenoid R=10 l=10 mm", 0.010, 0.010), path);
  const AxisCase large = helmholtz("Helmholtz pair R=0.150 m", 0.150, 130);
  compare(record, pairs, table, large, path);
  compare(record, pairs, table, helmholtz("Helmholtz pair R=0.1 m", 0.1, 1), path);
  record.by_formula({manuals, "centre of the pair, per ampere", "T", "7.80e-4", 0, Certainty::memory},
                    large.formula(0), 1e-16);
}

}  // namespace coilpull
