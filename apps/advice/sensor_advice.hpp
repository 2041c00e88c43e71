// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/device/device.hpp"
#include "solver/device/operation.hpp"
#include "solver/measure/measurement.hpp"

namespace coilpull {

/// A displacement, and between which others it may lie.
struct Scattered {
  double typical, least, most;  ///< [m]
  double width() const { return most - least; }
};

/// What a sensor does as the mover passes towards +z.
struct SensorPassage {
  std::optional<Scattered> operates, releases;  ///< none: some sensor within its sheet's range does not
  bool on_at_start = false;
};

/// B along the sensor's direction over the displacements, which rise. [m], [T]
struct SensorCurve {
  std::vector<double> displacements, along_T;
};

/// The field rises through operate, then falls through release; straight lines between the points.
SensorPassage passage(const SensorCurve& curve, const SwitchingSensor& sensor);

struct CoilOnSensor {
  double most_T;  ///< largest change of the field along the direction by either sense of the current
  bool trips,
      masks;  ///< switches it on where it is off; keeps it off where it is on; at worst within the sheet
};

/// @param currents_on  curves with current, at the same displacements as `off`
CoilOnSensor coil_on_sensor(const SensorCurve& off, const std::vector<SensorCurve>& currents_on,
                            const SwitchingSensor& sensor);

/// Shifts of the sensor along z and copies of it above and below, for place tolerance.
struct SensorPlaces {
  std::vector<double> shifts;  ///< [m], rising evenly
  std::vector<Sensor> copies;  ///< one a shift at r, then the same at r - tolerance and r + tolerance
};
SensorPlaces places_around(const Sensor& sensor, double tolerance);

/// Shifts of z at which the sensor operates and releases, undisturbed by the coil, at every place within the
/// tolerance and at the shifts beside it. @param works  one for each of SensorPlaces::copies
std::vector<double> working_shifts(const SensorPlaces& places, const std::vector<bool>& works,
                                   double tolerance);

/// Whether a sensor would stand within the box of a part: of a moving one, anywhere along the stroke.
bool inside_a_part(const Device& device, const Sensor& sensor);

struct SensorAdvice {
  Sensor sensor;
  SwitchingSensor sheet;
  SensorCurve off;
  std::vector<SensorCurve> on;  ///< one for each of currents_A
  std::vector<double> currents_A;
  SensorPassage passage;
  CoilOnSensor coil;
  std::optional<Measured>
      lost_J;  ///< between the extremes of the release: what the current does there, at worst
  std::vector<double> tried, works;  ///< shifts of z [m]
};

}  // namespace coilpull
