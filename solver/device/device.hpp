// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "materials/magnet_law.hpp"
#include "materials/magnetic_law.hpp"
#include "materials/wire.hpp"
#include "meshing/outline.hpp"

namespace coilpull {

// What a person builds: plain data in SI units, complete and checked by whoever made it.
// z is the common axis. Displacement, axial force and Bz count positive along +z; current counts
// positive counter-clockwise seen from +z, so that a positive current makes a positive Bz inside its coil.

/// A soft-magnetic part, fixed or moving.
struct Core {
  std::string name;
  Outline outline;
  SoftLaw law;
  std::string material;  ///< as the person named it, for reports
  /// H(B) is shifted by so much along z [A/m], see RegionPhysics; 0 unless hysteresis is bracketed.
  double shift_A_per_m = 0;
};

/// The wire of a coil.
struct RoundWire {
  double bare_diameter;     ///< [m]
  double overall_diameter;  ///< largest, insulation included [m]
  Metal metal = Metal::copper;
};

/// How a winding is laid: turns over turns in straight rows, or each layer in the grooves of the one before.
enum class Packing { rows, nested };

/// What a winding is wound on: the drawn space less these is where the turns lie. All in metres, >= 0.
struct Bobbin {
  Outline space;      ///< as drawn: a rectangle
  double wall;        ///< on the side of the axis
  double flange;      ///< at either end
  double clearance;   ///< left free at the outside
  double layer_film;  ///< between one layer and the next
};

/// A winding: turns spread evenly over a section.
struct Coil {
  std::string name;
  Outline outline;
  double turns;         ///< >= 1, spread evenly over the section
  std::string circuit;  ///< coils in series name the same circuit
  double sense = 1;     ///< +1, or -1 when wound against the circuit's positive direction
  std::optional<RoundWire> wire = {};
  std::optional<Bobbin> bobbin = {};  ///< outline is what it leaves
  Packing packing = Packing::nested;  ///< what the turns are held against
  double temperature_degC = 20;       ///< of the winding, for its resistance
};

/// A permanent magnet.
struct Magnet {
  std::string name;
  Outline outline;
  MagnetLaw law;  ///< at its temperature
  std::string material;
  double temperature_degC = 20;
  std::optional<double> knee_T =
      {};  ///< B along the magnetisation below which it is changed for good; none: unknown
};

/// B at a point, or averaged over a disc (face) of radius face_radius, normal to z, centred at (r, z).
struct Sensor {
  std::string name;
  Point at;
  double face_radius = 0;  ///< [m], 0: a point
  bool moves = false;      ///< carried by the moving group
};

/// Everything that is solved: parts, what moves, currents, sensors.
struct Device {
  std::string title;
  std::vector<Core> cores;
  std::vector<Coil> coils;
  std::vector<Magnet> magnets;
  std::vector<std::string> moving;              ///< names of the parts that the displacement shifts
  std::vector<double> displacements;            ///< [m], in the order of the table
  std::vector<std::string> circuits;            ///< in the order of the drawing
  std::vector<std::vector<double>> currents_A;  ///< one entry a point of the table: a current per circuit
  std::vector<Sensor> sensors;
  double background_bz_T = 0;
  double tolerance = 1e-3;  ///< of the largest |force| of the table
};

bool is_moving(const Device& device, const std::string& part);

}  // namespace coilpull
