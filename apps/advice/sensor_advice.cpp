// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/sensor_advice.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

struct Switched {
  std::optional<Measured> on, off;
  bool on_at_start;
};

Switched switched(const SensorCurve& curve, double operate_T, double release_T, double bar_T) {
  const std::vector<double>&z = curve.displacements, &b = curve.along_T;
  Switched seen{{}, {}, !b.empty() && b[0] >= operate_T};
  bool is_on = seen.on_at_start;
  const auto bend = [&](std::size_t i) {
    return i > 0 && i + 1 < b.size() ? std::abs(b[i - 1] - 2 * b[i] + b[i + 1]) : 0;
  };
  const auto where = [&](std::size_t i, double level) {
    const double slope = (b[i] - b[i - 1]) / (z[i] - z[i - 1]);
    return Measured{z[i - 1] + (level - b[i - 1]) / slope,
                    (bar_T + std::max(bend(i - 1), bend(i)) / 8) / std::abs(slope)};
  };
  for (std::size_t i = 1; i < b.size() && !seen.off; ++i) {
    if (!is_on && b[i] >= operate_T) {
      is_on = true;
      seen.on = where(i, operate_T);
    } else if (is_on && b[i] <= release_T) {
      seen.off = where(i, release_T);
    }
  }
  return seen;
}

std::optional<Scattered> scatter(const std::optional<Measured>& typical, const std::optional<Measured>& a,
                                 const std::optional<Measured>& b) {
  if (!typical || !a || !b) return std::nullopt;
  return Scattered{typical->value, std::min({typical->value, a->value, b->value}),
                   std::max({typical->value, a->value, b->value}), typical->error};
}

}  // namespace

std::optional<Scattered> widened(const std::optional<Scattered>& a, const std::optional<Scattered>& b) {
  if (!a || !b) return std::nullopt;
  return Scattered{a->typical, std::min(a->least, b->least), std::max(a->most, b->most), a->bar};
}

SensorPassage passage(const SensorCurve& curve, const SwitchingSensor& sensor, double bar_T) {
  const Switched typical = switched(curve, sensor.operate.typical, sensor.release.typical, bar_T),
                 keen = switched(curve, sensor.operate.least, sensor.release.least, bar_T),
                 dull = switched(curve, sensor.operate.most, sensor.release.most, bar_T);
  return {scatter(typical.on, keen.on, dull.on), scatter(typical.off, keen.off, dull.off),
          typical.on_at_start, keen.on_at_start};
}

SensorCurve turned_round(SensorCurve curve) {
  std::reverse(curve.displacements.begin(), curve.displacements.end());
  std::reverse(curve.along_T.begin(), curve.along_T.end());
  return curve;
}

CoilOnSensor coil_on_sensor(const SensorCurve& off, const std::vector<SensorCurve>& currents_on,
                            const SwitchingSensor& sensor) {
  CoilOnSensor seen{0, false, false};
  for (const SensorCurve& on : currents_on)
    for (std::size_t i = 0; i < off.along_T.size() && i < on.along_T.size(); ++i) {
      const double without = off.along_T[i], with = on.along_T[i];
      seen.most_T = std::max(seen.most_T, std::abs(with - without));
      seen.trips |= without < sensor.release.least && with >= sensor.operate.least;
      seen.masks |= without >= sensor.operate.most && with <= sensor.release.most;
    }
  return seen;
}

bool SensorPlaces::within_tolerance(std::size_t copy) const {
  return copy >= 3 * shifts.size() || copy % shifts.size() == itself;
}

SensorPlaces places_around(const Sensor& sensor, double tolerance, double reach,
                           const std::function<bool(const Sensor&)>& solved) {
  // Where the coil's field along the sensor turns round, places are narrow.
  constexpr double finest = 0.25e-3, most = 200;
  const double step = std::max(finest, reach / most);
  const auto copy_at = [&](double r, double shift) {
    Sensor copy = sensor;
    copy.at = {r, sensor.at.z + shift};
    return copy;
  };
  SensorPlaces places{{0}, 0, {}};
  const int count = static_cast<int>(reach / step);
  for (int n = 1; n <= count && solved(copy_at(sensor.at.r + tolerance, n * step)); ++n)
    places.shifts.push_back(n * step);
  for (int n = 1; n <= count && solved(copy_at(sensor.at.r + tolerance, -n * step)); ++n) {
    places.shifts.insert(places.shifts.begin(), -n * step);
    ++places.itself;
  }
  const auto add = [&](double r, double shift) {
    places.copies.push_back(copy_at(r, shift));
    places.copies.back().name += "_" + std::to_string(places.copies.size());
  };
  const double radii[] = {sensor.at.r, std::max(0.0, sensor.at.r - tolerance), sensor.at.r + tolerance};
  for (const double r : radii)
    for (const double shift : places.shifts) add(r, shift);
  if (tolerance > 0)
    for (const double r : radii)
      for (const double shift : {-tolerance, tolerance}) add(r, shift);
  return places;
}

std::vector<double> working_shifts(const SensorPlaces& places, const std::vector<bool>& works,
                                   double tolerance) {
  const std::size_t count = places.shifts.size();
  const auto column_works = [&](std::size_t k) {
    return works[k] && works[k + count] && works[k + 2 * count];
  };
  if (count < 2) return {};
  const double reach = std::max(tolerance, places.shifts[1] - places.shifts[0]) * (1 + 1e-9);
  std::vector<double> shifts;
  for (std::size_t k = 0; k < count; ++k) {
    bool all = true;
    for (std::size_t other = 0; other < count; ++other)
      if (std::abs(places.shifts[other] - places.shifts[k]) <= reach) all &= column_works(other);
    if (all) shifts.push_back(places.shifts[k]);
  }
  return shifts;
}

bool inside_a_part(const Device& device, const Sensor& sensor) {
  const auto [first, last] = std::minmax_element(device.displacements.begin(), device.displacements.end());
  const double low = device.displacements.empty() ? 0 : *first,
               high = device.displacements.empty() ? 0 : *last;
  const auto holds = [&](const std::string& name, const Outline& outline) {
    const Box box = bounding_box(outline);
    // Where both move or both stand the distance stays.
    const bool apart = is_moving(device, name) != sensor.moves;
    const double from = apart ? (sensor.moves ? -high : low) : 0,
                 to = apart ? (sensor.moves ? -low : high) : 0;
    return sensor.at.r >= box.r_from && sensor.at.r <= box.r_to && sensor.at.z >= box.z_from + from &&
           sensor.at.z <= box.z_to + to;
  };
  for (const Core& core : device.cores)
    if (holds(core.name, core.outline)) return true;
  for (const Coil& coil : device.coils)
    if (holds(coil.name, coil.outline)) return true;
  for (const Magnet& magnet : device.magnets)
    if (holds(magnet.name, magnet.outline)) return true;
  return false;
}

}  // namespace coilpull
