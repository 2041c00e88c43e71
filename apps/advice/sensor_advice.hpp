// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
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
  double bar = 0;               ///< of the typical one: what numbers leave open [m]
  double width() const { return most - least; }
};

/// The range that holds both; none unless both are there. Typical stays a's.
std::optional<Scattered> widened(const std::optional<Scattered>& a, const std::optional<Scattered>& b);

/// What a sensor does as the mover passes the stroke one way.
struct SensorPassage {
  std::optional<Scattered> operates, releases;  ///< none: some sensor within its sheet's range does not
  bool on_at_start = false;                     ///< the typical one
  bool keen_on_at_start = false;                ///< the most easily switched of its sheet
};

/// B along the sensor's direction over the displacements in the order of motion. [m], [T]
struct SensorCurve {
  std::vector<double> displacements, along_T;
};

/// The field rises through operate, then falls through release; straight lines between the points. Bars: over
/// the slope there what is open of the field, and an eighth of the second difference, what a parabola leaves
/// such a line by.
/// @param bar_T  of the field
SensorPassage passage(const SensorCurve& curve, const SwitchingSensor& sensor, double bar_T = 0);

/// The same curve for motion the other way.
SensorCurve turned_round(SensorCurve curve);

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
  std::size_t itself;          ///< number of the shift 0
  /// One a shift at r, then the same at r - tolerance and r + tolerance; last, if there is a tolerance, the
  /// sensor itself shifted along z by it either way, at the three r.
  std::vector<Sensor> copies;
  /// Whether a copy stands within the tolerance of the sensor.
  bool within_tolerance(std::size_t copy) const;
};

/// @param reach   farthest shift either way; 0.25 mm from one to the next, or 200 either way where that is
/// less
/// @param solved  whether the field is known at a place of the sensor; shifts end where it is not
SensorPlaces places_around(const Sensor& sensor, double tolerance, double reach,
                           const std::function<bool(const Sensor&)>& solved);

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
  double bar_T;  ///< of its field: 1.5 times what two orders differ by, and what another mesh does; at worst
  SensorPassage passage, back;            ///< towards +z, towards -z; over its sheet
  SensorPassage anywhere, anywhere_back;  ///< over its sheet and everywhere within its place tolerance
  CoilOnSensor coil;
  std::optional<Measured>
      lost_J;  ///< between the extremes of anywhere.releases: what the current does there, at worst
  std::vector<double> tried, works;  ///< shifts of z [m]
};

}  // namespace coilpull
