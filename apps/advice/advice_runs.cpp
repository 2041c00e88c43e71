// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/advice_runs.hpp"

#include <algorithm>
#include <cmath>

#include "apps/commands/solve.hpp"
#include "apps/hysteresis/remanence_bracket.hpp"
#include "solver/device/section_at.hpp"
#include "solver/measure/sensor.hpp"
#include "solver/refine/resolution_for.hpp"

namespace coilpull {
namespace {

constexpr int hold_currents = 33;

std::size_t index_of(const Device& device, const std::string& circuit) {
  return static_cast<std::size_t>(std::find(device.circuits.begin(), device.circuits.end(), circuit) -
                                  device.circuits.begin());
}

/// One circuit at these currents, the others off.
std::vector<std::vector<double>> sets_of(const Device& device, const std::string& circuit,
                                         const std::vector<double>& currents_A) {
  std::vector<std::vector<double>> sets;
  for (const double current_A : currents_A) {
    sets.emplace_back(device.circuits.size(), 0.0);
    sets.back()[index_of(device, circuit)] = current_A;
  }
  return sets;
}

/// 0 included. They are even, but for 0 where the range does not meet it.
std::vector<double> currents_over(const DriveTable& drive) {
  std::vector<double> currents_A;
  currents_A.reserve(hold_currents + 1);
  for (int i = 0; i < hold_currents; ++i)
    currents_A.push_back(drive.least_A() + (drive.most_A() - drive.least_A()) * i / (hold_currents - 1));
  if (std::find(currents_A.begin(), currents_A.end(), 0.0) == currents_A.end()) currents_A.push_back(0);
  std::sort(currents_A.begin(), currents_A.end());
  return currents_A;
}

HoldAt hold_at(const Mechanics& mechanics, const std::vector<double>& currents_A,
               const std::vector<const Measurement*>& rows, const Measurement* plus,
               const Measurement* minus) {
  HoldAt hold{};
  hold.displacement = rows.front()->displacement;
  hold.push_N = push_from_outside(mechanics, hold.displacement);
  std::vector<Measured> forces_N;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    forces_N.push_back(rows[i]->force_N);
    if (currents_A[i] == 0) hold.off_N = rows[i]->force_N;
  }
  double shift_N = 0;
  if (plus && minus) {
    hold.remanent_plus_N = plus->force_N;
    hold.remanent_minus_N = minus->force_N;
    for (const Measurement* left : {plus, minus})
      shift_N = std::max(shift_N, std::abs(left->force_N.value - hold.off_N.value));
  }
  hold.lets_go_A = balance_currents(currents_A, forces_N, hold.push_N, shift_N);
  // With nothing from outside any magnetic force holds; else it has to win against it.
  hold.held_off = std::abs(hold.off_N.value) > hold.off_N.error &&
                  hold.off_N.value * (hold.off_N.value + hold.push_N) > 0;
  return hold;
}

SensorCurve curve_of(const ForceTable& table, std::size_t set, std::size_t sensor,
                     const SwitchingSensor& sheet) {
  std::vector<std::pair<double, double>> points;
  for (std::size_t i = set; i < table.rows.size(); i += table.currents_per_displacement)
    if (sensor < table.rows[i].sensors.size()) {
      const SensorField& field = table.rows[i].sensors[sensor];
      points.push_back(
          {table.rows[i].displacement, sheet.direction_r * field.br_T + sheet.direction_z * field.bz_T});
    }
  std::sort(points.begin(), points.end());
  SensorCurve curve;
  for (const auto& [z, b] : points) {
    curve.displacements.push_back(z);
    curve.along_T.push_back(b);
  }
  return curve;
}

/// Along the whole stroke, or 20 mm where that is less, as far as the air is meshed.
SensorPlaces places_of(const Device& device, const Sensor& sensor, double tolerance) {
  constexpr double least_reach = 20e-3, safely = 0.97;  // curved triangles fill the half circle to 1e-4
  const auto [first, last] = std::minmax_element(device.displacements.begin(), device.displacements.end());
  const HalfCircle air = half_circle_of(device, resolution_for(device.tolerance).outer_ratio);
  const auto solved = [&, first = *first, last = *last](const Sensor& copy) {
    for (const double shift : {sensor.moves ? first : 0.0, sensor.moves ? last : 0.0})
      if (std::hypot(copy.at.r + copy.face_radius, copy.at.z + shift - air.centre_z) > safely * air.radius)
        return false;
    return true;
  };
  return places_around(sensor, tolerance, std::max(least_reach, *last - *first), solved);
}

/// Number of the curve's point that is nearest to a displacement.
std::size_t nearest(const SensorCurve& curve, double displacement) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < curve.displacements.size(); ++i)
    if (std::abs(curve.displacements[i] - displacement) < std::abs(curve.displacements[best] - displacement))
      best = i;
  return best;
}

/// The field at the sensor once more, on a mesh of its own, at two orders; infinite where that fails.
double field_bar_T(const Device& device, const Sensor& sensor, const SwitchingSensor& sheet,
                   double displacement, const std::vector<double>& currents_A, double along_T, int order,
                   Mesher& mesher) {
  constexpr double order_safety = 1.5;  // as in solver/refine
  double seen_T[2];
  for (int step = 0; step < 2; ++step) {
    const auto solved = solve_point(device, displacement, currents_A, order - 1 + step, mesher);
    if (!solved) return HUGE_VAL;
    Point at = sensor.at;
    if (sensor.moves) at.z += displacement;
    const FluxDensity b = sensor_field(solved->field, at, sensor.face_radius);
    seen_T[step] = sheet.direction_r * b.r + sheet.direction_z * b.z;
  }
  return order_safety * std::abs(seen_T[1] - seen_T[0]) + std::abs(seen_T[1] - along_T);
}

/// Where it switches without current, either way, and in the middle of the stroke with the strongest ones.
double field_bar_T(const Device& device, const SensorAdvice& advice, const std::string& circuit, int order) {
  constexpr int usual_order = 4;  // of a table out of a file, which does not tell
  Mesher mesher;
  double bar_T = 0;
  const auto hold = [&](const SensorCurve& curve, std::size_t i, double current_A) {
    bar_T = std::max(bar_T, field_bar_T(device, advice.sensor, advice.sheet, curve.displacements[i],
                                        sets_of(device, circuit, {current_A}).front(), curve.along_T[i],
                                        order > 1 ? order : usual_order, mesher));
  };
  const SensorPassage there = passage(advice.off, advice.sheet);
  for (const auto& at : {there.operates, there.releases})
    if (at) hold(advice.off, nearest(advice.off, at->typical), 0);
  for (std::size_t k = 0; k < advice.on.size(); ++k)
    if (!advice.on[k].along_T.empty())
      hold(advice.on[k], advice.on[k].along_T.size() / 2, advice.currents_A[k]);
  return bar_T;
}

}  // namespace

HoldingAdvice holding_advice(const DeviceFile& file, const DriveTable& drive, const SolveChange& solve) {
  const Mechanics mechanics = file.operation.mechanics.value_or(Mechanics{});
  HoldingAdvice advice{mechanics.dry_friction, starts_along(drive, mechanics), {}, {}};
  if (mechanics.hold_at.empty()) return advice;
  DeviceFile gaps = file;
  gaps.device.displacements = mechanics.hold_at;
  const std::vector<double> currents_A = currents_over(drive);
  gaps.device.currents_A = sets_of(file.device, drive.circuit, currents_A);
  const ForceTable table = solve(gaps.device, {});
  const std::vector<HardCore> hard = hard_cores(file);
  for (const Core& core : file.device.cores)
    if (std::none_of(hard.begin(), hard.end(), [&](const HardCore& one) { return one.name == core.name; }))
      advice.cores_without_remanence.push_back(core.name);
  ForceTable plus, minus;
  if (!hard.empty()) {
    plus = solve(left_magnetised(gaps, 1), table.meshes);
    minus = solve(left_magnetised(gaps, -1), table.meshes);
  }
  for (std::size_t d = 0; d < mechanics.hold_at.size(); ++d) {
    std::vector<const Measurement*> rows;
    bool usable = true;
    for (std::size_t i = 0; i < table.currents_per_displacement; ++i) {
      rows.push_back(&table.rows[d * table.currents_per_displacement + i]);
      usable &= std::isfinite(rows.back()->force_N.value);
    }
    if (usable)
      advice.holds.push_back(hold_at(mechanics, currents_A, rows, hard.empty() ? nullptr : &plus.rows[d],
                                     hard.empty() ? nullptr : &minus.rows[d]));
  }
  return advice;
}

SensorAdvice sensor_advice(const DeviceFile& file, const Sensor& sensor, const DriveTable& drive,
                           const ForceTable& table, const SolveChange& solve) {
  SensorAdvice advice{};
  advice.sensor = sensor;
  advice.sheet = file.operation.sensors.at(sensor.name);
  const SensorPlaces places = places_of(file.device, sensor, advice.sheet.place_tolerance);
  advice.tried = places.shifts;
  for (const double end : {drive.least_A(), drive.most_A()})
    if (end != 0) advice.currents_A.push_back(end);
  Device device = file.device;
  device.sensors = places.copies;
  std::vector<double> currents_A = {0};
  currents_A.insert(currents_A.end(), advice.currents_A.begin(), advice.currents_A.end());
  device.currents_A = sets_of(device, drive.circuit, currents_A);
  const ForceTable seen = solve(device, table.meshes);

  const std::size_t itself = places.itself;
  advice.off = curve_of(seen, 0, itself, advice.sheet);
  for (std::size_t set = 1; set < currents_A.size(); ++set)
    advice.on.push_back(curve_of(seen, set, itself, advice.sheet));
  advice.bar_T = field_bar_T(file.device, advice, drive.circuit, table.order);
  advice.passage = passage(advice.off, advice.sheet, advice.bar_T);
  advice.back = passage(turned_round(advice.off), advice.sheet, advice.bar_T);
  advice.coil = coil_on_sensor(advice.off, advice.on, advice.sheet);
  advice.anywhere = advice.passage, advice.anywhere_back = advice.back;
  std::vector<bool> works;
  for (std::size_t k = 0; k < places.copies.size(); ++k) {
    const SensorCurve off = curve_of(seen, 0, k, advice.sheet);
    std::vector<SensorCurve> on;
    for (std::size_t set = 1; set < currents_A.size(); ++set)
      on.push_back(curve_of(seen, set, k, advice.sheet));
    const SensorPassage passed = passage(off, advice.sheet);
    const CoilOnSensor coil = coil_on_sensor(off, on, advice.sheet);
    works.push_back(passed.operates && passed.releases && !coil.trips && !coil.masks &&
                    !inside_a_part(file.device, places.copies[k]));
    if (!places.within_tolerance(k)) continue;
    const SensorPassage back = passage(turned_round(off), advice.sheet);
    for (auto [all, one] : {std::pair{&advice.anywhere, &passed}, std::pair{&advice.anywhere_back, &back}}) {
      all->operates = widened(all->operates, one->operates);
      all->releases = widened(all->releases, one->releases);
    }
  }
  advice.works = working_shifts(places, works, advice.sheet.place_tolerance);
  if (advice.anywhere.releases) {
    Measured most{0, 0};
    for (const double current_A : advice.currents_A) {
      const double a = advice.anywhere.releases->least, b = advice.anywhere.releases->most;
      const Measured on = drive.work_J(a, b, current_A), off = drive.work_J(a, b, 0);
      if (std::abs(on.value - off.value) >= most.value)
        most = {std::abs(on.value - off.value), on.error + off.error};
    }
    advice.lost_J = most;
  }
  return advice;
}

}  // namespace coilpull
