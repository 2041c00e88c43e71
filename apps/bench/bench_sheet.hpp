// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/bench/solve_function.hpp"
#include "solver/device/device.hpp"
#include "solver/measure/measurement.hpp"

namespace coilpull {

/// What an ohmmeter should read.
struct CoilOnBench {
  std::string name, circuit;
  double turns;
  double turn_m;                 ///< mean length of a turn: volume of the winding over its section (Pappus)
  std::optional<double> wire_m;  ///< bare diameter; none: the file names no wire
  std::optional<double> resistance_ohm;  ///< at 20 degC; none: no wire
};

/// What an inductance meter should read at one circuit, the others open.
struct CircuitOnBench {
  std::string name;
  Measured coils_alone_H;  ///< cores and magnets taken away
};

/// What a field probe should read beside a magnet that lies alone in air.
struct FaceOnBench {
  std::string magnet;
  int side;         ///< +1: before its end at larger z, -1: behind its other end
  double distance;  ///< from that end along the axis [m]
  Measured bz_T;
};

/// What a scale should read with the moving parts held at one displacement.
struct GapOnBench {
  double displacement;                 ///< [m], one of the device file
  double clearance;                    ///< [m]; NaN without moving or fixed parts
  Measured off_N;                      ///< all currents 0
  std::optional<Measured> on_N;        ///< at BenchSheet::strongest_A; none: no current in the file
  std::vector<Measured> inductance_H;  ///< of each circuit at zero current, cores and magnets in place
};

struct BenchSheet {
  std::vector<CoilOnBench> coils;
  std::vector<CircuitOnBench> circuits;
  std::vector<FaceOnBench> faces;
  std::vector<GapOnBench> gaps;      ///< at most three; empty where nothing moves
  std::vector<double> strongest_A;   ///< the set of currents of the file with the largest sum of squares
  std::vector<std::string> trouble;  ///< what could not be solved
};

/// Solves what the sheet needs. Of at most nine displacements spread over those of the file the sheet shows
/// where the pull is strongest, about half and about a quarter of it: currents off when that pulls at all.
/// Bars of forces and of coils alone are those of their tables. Inductances in place and fields have none of
/// their own: twice their change to a mesh for a four times wider tolerance, the largest relative one for
/// all.
BenchSheet bench_sheet(const Device& device, const Solve& solve);

}  // namespace coilpull
