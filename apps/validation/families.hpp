// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "apps/validation/record.hpp"

namespace coilpull {

// Every family reads its file of data/published, computes each value by finite elements, and by the closed
// formula where there is one, and records both sides.
void check_filaments(Record& record);
void check_nagaoka(Record& record);
void check_thick_coils(Record& record);
void check_axis_fields(Record& record);
void check_magnet_fields(Record& record);
void check_axial_forces(Record& record);
void check_forces_over_iron(Record& record);
void check_linear_balls(Record& record);
void check_saturating_ellipsoids(Record& record);
void check_demagnetised_cylinders(Record& record);
void check_recoil_moments(Record& record);
void check_solenoid_core(Record& record);
void check_saturating_device(Record& record);
void check_corner_devices(Record& record);
/// One of them: by the name of its device file in data/published, without .toml.
void check_corner_device(Record& record, const std::string& name);
void check_textbook_circuits(Record& record);
void check_gap_fringing(Record& record);
void check_wire_gauges(Record& record);

struct Family {
  std::string name;
  void (*run)(Record& record);
  bool quick;  ///< takes seconds
};

std::vector<Family> all_families();

struct Validation {
  std::vector<std::unique_ptr<Record>> records;  ///< one a family, in their order; sources live here
  std::vector<Check> checks() const;
};

/// Runs families side by side, each on one thread.
/// @param on_done  called after each family, one at a time, with its name and how many are done
/// @throws the first error of a family
Validation validate(const std::vector<Family>& families, int threads,
                    const std::function<void(const std::string& name, std::size_t done)>& on_done);

}  // namespace coilpull
