// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

namespace coilpull {

// How a person drives, loads and watches a device: plain data in SI units. The field does not depend on it.
// An empty optional was not stated.

/// Copper wire from the supply to the winding and back.
struct Lead {
  double length, diameter;  ///< both ways together; bare [m]
};

/// What feeds a circuit; each circuit has one like it of its own. At least voltage or current limit is
/// stated.
struct Supply {
  std::optional<double> voltage = {};        ///< without load; of a capacitor: what it is charged to [V]
  std::optional<double> current_limit = {};  ///< the supply gives no more [A]
  std::optional<double> capacitance = {};    ///< of a capacitor that runs down [F]; none: stiff
  double series_ohm = 0;                     ///< within the supply or the capacitor
  double switch_ohm = 0;                     ///< of the switch that is on
  std::optional<Lead> lead = {};
  std::optional<double> diode = {};  ///< forward voltage of a diode across the winding that takes over [V]
  std::optional<double> clamp = {};  ///< voltage held across the winding as its current dies away [V]
};

/// How often it strokes, and what it bears.
struct Duty {
  std::optional<double> strokes_per_s = {};
  std::optional<double> pulse = {};            ///< how long the current flows in a stroke [s]
  double ambient_degC = 20;                    ///< also where a winding starts from
  std::optional<double> insulation_degC = {};  ///< thermal class
  std::optional<double> bobbin_degC = {};
  double cooling_W_per_m2_K = 10;  ///< still air and radiation; common practice, no source
};

/// A straight spring on the mover.
struct Spring {
  double rate;     ///< > 0 [N/m]
  double free_at;  ///< displacement at which it neither pushes nor pulls [m]
};

/// Where the mover is stopped, and how it rebounds.
struct EndStops {
  double from, to;     ///< displacements [m]
  double restitution;  ///< speed after over speed before, 0 to 1
};

/// What else acts on the moving group; forces along +z.
struct Mechanics {
  std::optional<double> mass = {};  ///< [kg]
  double dry_friction = 0;          ///< >= 0, against every motion and every start [N]
  double viscous_friction = 0;      ///< >= 0 [N s/m]
  double slope_deg = 0;             ///< of +z above the horizontal; 90: +z points up
  double load = 0;                  ///< constant [N]
  std::optional<Spring> spring = {};
  std::optional<EndStops> stops = {};
  std::vector<double> hold_at = {};  ///< displacements at which it is to hold [m]
};

/// Force along +z at a displacement by weight, load and spring, friction left out [N]. Without a mass there
/// is no weight.
double push_from_outside(const Mechanics& mechanics, double displacement);

/// A threshold as its sheet states it. [T]
struct Threshold {
  double least, typical, most;
};

/// A sensor that switches. It is on when the field along its direction has passed `operate`, and off when it
/// has fallen below `release`.
struct SwitchingSensor {
  enum class Kind { unipolar, latching };  ///< latching: release is negative, it keeps its state at no field
  double direction_r, direction_z;         ///< a unit vector
  double angle_deg;                        ///< of it, from +z towards +r
  Kind kind;
  Threshold operate, release;
  double place_tolerance = 0;  ///< half range of its r and of its z [m]
  double delay = 0;            ///< from the field to the current [s]
};

}  // namespace coilpull
