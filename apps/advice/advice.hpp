// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/advice/advice_runs.hpp"
#include "apps/advice/rating_advice.hpp"
#include "apps/advice/switching_advice.hpp"

namespace coilpull {

/// Everything that follows from one solved table for one circuit of it.
struct Advice {
  DriveTable drive;
  std::optional<HeatAdvice> heat;       ///< none: a coil of the circuit has no wire
  std::optional<RatingAdvice> ratings;  ///< of the same winding
  std::vector<SensorAdvice> sensors;    ///< of those whose sheet the file states
  SwitchingAdvice switching;
  HoldingAdvice holding;
  bool mechanics_stated;  ///< false: friction, load, spring and weight are not known
};

/// @param what  what needs it, as a sentence begins: "advice"
/// @throws BadDevice  nothing moves, no circuit, or fewer than two displacements
void refuse_without_motion(const DeviceFile& file, const std::string& what);

/// @throws BadDevice  nothing moves, no circuit, a single displacement, or a stated gap outside the stroke:
///                    what the file lacks for advice. To be asked before the table is solved.
void refuse_without_advice(const DeviceFile& file);

/// @param circuit  empty: the first that varies
/// @param table    of the whole device; where it has no meshes, what is solved beside it gets meshes of its
/// own
/// @throws BadDevice, BadCsv  as refuse_without_advice and drive_of
Advice advise(const DeviceFile& file, const ForceTable& table, const std::string& circuit,
              const SolveChange& solve);

}  // namespace coilpull
