// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/bench/bench_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "apps/bench/bench_devices.hpp"
#include "apps/winding/winding_sheet.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

constexpr std::size_t most_tried = 9;
constexpr double coarser = 4;  // tolerance of the second mesh over that of the first
const std::vector<double> probe_distances = {1e-3, 5e-3};

CoilOnBench on_bench(const Coil& coil) {
  CoilOnBench line{coil.name, coil.circuit, coil.turns, volume(coil.outline) / area(coil.outline), {}, {}};
  if (const auto sheet = winding_sheet(coil)) {
    line.wire_m = coil.wire->bare_diameter;
    line.resistance_ohm = sheet->resistance_20_ohm;
  }
  return line;
}

Device with_wider_tolerance(Device device) {
  device.tolerance = std::min(0.1, coarser * device.tolerance);
  return device;
}

/// Gives the values the bar that their change to other ones asks for.
void set_bars(std::vector<Measured>& values, const std::vector<double>& others) {
  double largest = 0;
  for (std::size_t i = 0; i < values.size(); ++i)
    largest = std::max(largest, std::abs(others[i] / values[i].value - 1));
  for (Measured& value : values) value.error = 2 * largest * std::abs(value.value);
}

void add_circuits(BenchSheet& sheet, const Device& device, const Solve& solve) {
  if (device.circuits.empty()) return;
  const ForceTable table = solve(coils_alone(device), false);
  for (std::size_t k = 0; k < device.circuits.size(); ++k) {
    const Measurement& row = table.rows[k];  // 1 A in this circuit
    sheet.circuits.push_back({device.circuits[k], row.linkage_Wb[k]});
    if (std::isnan(row.linkage_Wb[k].value))
      sheet.trouble.push_back("the coils of " + device.circuits[k] + " alone: " + row.why);
  }
}

void add_faces(BenchSheet& sheet, const Device& device, std::size_t magnet, const Solve& solve) {
  const Device alone = magnet_alone(device, magnet, probe_distances);
  const ForceTable fine = solve(alone, false), coarse = solve(with_wider_tolerance(alone), false);
  std::vector<Measured> fields;
  std::vector<double> others;
  for (std::size_t i = 0; i < alone.sensors.size(); ++i) {
    fields.push_back({fine.rows.front().sensors[i].bz_T, nan});
    others.push_back(coarse.rows.front().sensors[i].bz_T);
  }
  if (std::isnan(fields.front().value)) {
    sheet.trouble.push_back("magnet " + alone.magnets.front().name + " alone: " + fine.rows.front().why);
    return;
  }
  set_bars(fields, others);
  for (std::size_t i = 0; i < fields.size(); ++i)
    sheet.faces.push_back(
        {alone.magnets.front().name, i % 2 == 0 ? -1 : 1, probe_distances[i / 2], fields[i]});
}

/// At most so many displacements of the device, evenly spread in its list, both ends among them.
std::vector<double> spread_displacements(const Device& device) {
  const std::size_t all = device.displacements.size(), count = std::min(all, most_tried);
  std::vector<double> chosen;
  for (std::size_t i = 0; i < count; ++i)
    chosen.push_back(device.displacements[count == 1 ? 0 : (i * (all - 1) + (count - 1) / 2) / (count - 1)]);
  return chosen;
}

/// Numbers of the usable displacements with the strongest force, and with about half and a quarter of it, in
/// their order.
std::vector<std::size_t> telling_displacements(const ForceTable& table) {
  const std::size_t sets = table.currents_per_displacement, count = table.rows.size() / sets;
  const auto strongest_of = [&](std::size_t set) {
    double strongest = 0;
    for (std::size_t i = 0; i < count; ++i)
      if (const double force = std::abs(table.rows[i * sets + set].force_N.value); force > strongest)
        strongest = force;
    return strongest;
  };
  const std::size_t set = sets > 1 && strongest_of(0) < 0.01 * strongest_of(1) ? 1 : 0;
  std::vector<std::size_t> chosen;
  for (const double part : {1.0, 0.5, 0.25}) {
    double nearest = std::numeric_limits<double>::infinity();
    std::size_t best = count;
    for (std::size_t i = 0; i < count; ++i) {
      const double force = table.rows[i * sets + set].force_N.value;
      const double away = std::abs(std::abs(force) - part * strongest_of(set));
      if (away < nearest && std::find(chosen.begin(), chosen.end(), i) == chosen.end())
        nearest = away, best = i;
    }
    if (best < count) chosen.push_back(best);
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

/// Of the circuits at the chosen displacements, currents off.
std::vector<double> inductances(const ForceTable& table, std::size_t displacement) {
  const Measurement& row = table.rows[displacement * table.currents_per_displacement];
  std::vector<double> values;
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    values.push_back(row.slopes ? row.slopes->inductance[k][k] : nan);
  return values;
}

void add_inductances(BenchSheet& sheet, const Device& device, const ForceTable& table,
                     const std::vector<std::size_t>& chosen, const Solve& solve) {
  std::vector<double> displacements, others;
  for (const GapOnBench& gap : sheet.gaps) displacements.push_back(gap.displacement);
  Device coarse = with_wider_tolerance(on_the_scale(device, displacements));
  coarse.currents_A.resize(1);
  const ForceTable second = solve(coarse, true);
  std::vector<Measured> values;
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    for (const double value : inductances(table, chosen[i])) values.push_back({value, nan});
    for (const double value : inductances(second, i)) others.push_back(value);
  }
  set_bars(values, others);
  const auto circuits = static_cast<std::ptrdiff_t>(device.circuits.size());
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    const auto first = values.begin() + static_cast<std::ptrdiff_t>(i) * circuits;
    sheet.gaps[i].inductance_H.assign(first, first + circuits);
  }
}

void add_gaps(BenchSheet& sheet, const Device& device, const Solve& solve) {
  if (device.moving.empty()) return;
  const ForceTable table = solve(on_the_scale(device, spread_displacements(device)), true);
  const std::vector<std::size_t> chosen = telling_displacements(table);
  if (chosen.empty()) sheet.trouble.push_back("the pull: " + table.rows.front().why);
  const std::size_t sets = table.currents_per_displacement;
  for (const std::size_t i : chosen) {
    const Measurement& off = table.rows[i * sets];
    GapOnBench gap{off.displacement, off.clearance, off.force_N, {}, {}};
    if (sets > 1) gap.on_N = table.rows[i * sets + 1].force_N;
    sheet.gaps.push_back(std::move(gap));
  }
  if (!device.circuits.empty() && !chosen.empty()) add_inductances(sheet, device, table, chosen, solve);
}

}  // namespace

BenchSheet bench_sheet(const Device& device, const Solve& solve) {
  BenchSheet sheet;
  for (const Coil& coil : device.coils) sheet.coils.push_back(on_bench(coil));
  sheet.strongest_A = strongest_currents(device);
  add_circuits(sheet, device, solve);
  for (std::size_t i = 0; i < device.magnets.size(); ++i) add_faces(sheet, device, i, solve);
  add_gaps(sheet, device, solve);
  return sheet;
}

}  // namespace coilpull
