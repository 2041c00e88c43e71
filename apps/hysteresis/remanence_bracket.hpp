// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A core whose steel can keep magnetism, and its coercive field.
struct HardCore {
  std::string name;
  double coercive_field_A_per_m;
};

/// Cores with a curved law whose file states a coercive field.
std::vector<HardCore> hard_cores(const DeviceFile& file);

/// Every current 0; the curves of all hard cores shifted by `sign` times their coercive field along z, as
/// after they were saturated that way. 0: as in the file.
Device left_magnetised(const DeviceFile& file, double sign);

/// With the current off: as in the file, and after the cores were saturated towards +z and towards -z.
struct RemanenceBracket {
  std::vector<HardCore> cores;
  ForceTable plain, towards_plus, towards_minus;  ///< the same displacements
};

/// Residual force and sensor offset where they are largest, and what they mean; for the screen.
std::string remanence_text(const RemanenceBracket& bracket);

/// A row a displacement: the three forces, and B at each sensor in the three states.
std::string remanence_csv(const RemanenceBracket& bracket);

}  // namespace coilpull
