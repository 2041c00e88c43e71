// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>

#include "materials/wire.hpp"

namespace coilpull {

// How hot a winding gets. It is one lump of metal with one temperature; enamel, bobbin and the steel around
// take no heat, so that what comes out is hot rather than cool. Resistance rises with temperature; the heat
// capacity does not (copper's would by some 3 % over 100 K, by Debye's model: winding_heat_test). The current
// stands at once: the rise of the current in the inductance, which would spare some heat, is left out.
// Temperatures in degC.

/// R(T) = ohm_20 (1 + alpha (T - 20)), heat = capacity * rise.
struct HeatedWinding {
  double ohm_20;
  double alpha_per_K;  ///< at 20 degC
  double capacity;     ///< [J/K]
  double surface;      ///< that meets the air [m^2]

  double ohm_at(double degC) const { return ohm_20 * (1 + alpha_per_K * (degC - 20)); }
};

/// So many metres of round wire. @param surface  [m^2]
HeatedWinding heated_winding(Metal metal, double bare_diameter, double length, double surface);

/// A supply that stays as it is: a voltage, a current, or a voltage that gives no more than a current. At
/// least one is stated. `ohm`: all resistance of the loop but the winding's.
struct StiffSource {
  std::optional<double> volts, limit_A;
  double ohm = 0;

  double current_A(double winding_ohm) const;
};

/// How long it takes from one temperature to a higher one, no heat flowing away [s]. By separation of
///   capacity dT/dt = i^2 R(T),
/// with R for variable (dR = ohm_20 alpha dT). Current held: capacity / (ohm_20 alpha i^2) ln(R1 / R0), which
/// is the adiabatic form of IEC 60949 (from memory) written for a winding. Voltage held behind the resistance
/// s:
///   capacity / (ohm_20 alpha U^2) [R^2 / 2 + 2 s R + s^2 ln R]  from R0 to R1.
/// A current limit holds first, until R has risen so far that the voltage no longer drives so much.
double heating_time_s(const HeatedWinding& winding, const StiffSource& source, double from_degC,
                      double to_degC);

/// The temperature after so many seconds: the inverse of heating_time_s.
double heated_degC(const HeatedWinding& winding, const StiffSource& source, double from_degC, double seconds);

/// A charged capacitor that runs down through `ohm` and the winding.
struct RunningDown {
  double volts, farad, ohm;
};

/// What has happened so many seconds after it was switched on.
struct Discharge {
  double degC;
  double volts_left;  ///< inside the capacitor, what its series resistance drops not counted
  double square_A2s;  ///< integral of i^2
  double heat_J;      ///< in the winding
};

/// Integrates  farad dU/dt = -i,  capacity dT/dt = i^2 R(T),  i = U / (R(T) + ohm)  by Runge-Kutta steps.
Discharge discharge(const HeatedWinding& winding, const RunningDown& source, double from_degC,
                    double seconds);

/// The temperature once it is empty. Whatever the inductance did, capacitor energy and heat share the
/// current:
///   farad U dU = -(R + ohm) / R capacity dT,
/// so  farad U^2 / 2 = capacity [(T - T0) + ohm / (ohm_20 alpha) ln(R / R0)].
double emptied_degC(const HeatedWinding& winding, const RunningDown& source, double from_degC);

/// When it reaches a temperature [s]; nothing when it is empty before.
std::optional<double> heating_time_s(const HeatedWinding& winding, const RunningDown& source,
                                     double from_degC, double to_degC);

/// Mean temperature at which strokes bring in as much heat as the surface gives off,
///   heat_J(T) strokes_per_s = cooling surface (T - ambient);
/// nothing when it runs away, that is when there is none below `most_degC`. An estimate: one temperature, one
/// number for convection and radiation.
/// @param heat_J  of a stroke that starts at this temperature
std::optional<double> steady_degC(const HeatedWinding& winding, const std::function<double(double)>& heat_J,
                                  double strokes_per_s, double cooling_W_per_m2_K, double ambient_degC,
                                  double most_degC = 1000);

}  // namespace coilpull
