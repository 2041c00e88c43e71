// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/families.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>

namespace coilpull {

std::vector<Family> all_families() {
  return {{"rings", check_filaments, true},
          {"thin solenoids", check_nagaoka, true},
          {"thick coils", check_thick_coils, true},
          {"fields on the axis", check_axis_fields, true},
          {"field of a magnet", check_magnet_fields, true},
          {"forces between magnets and coils", check_axial_forces, false},
          {"forces over iron", check_forces_over_iron, false},
          {"balls and shells", check_linear_balls, true},
          {"saturating ellipsoids", check_saturating_ellipsoids, false},
          {"demagnetised cylinders", check_demagnetised_cylinders, false},
          {"moment of magnets", check_recoil_moments, true},
          {"core in an endless solenoid", check_solenoid_core, true},
          {"saturating device", check_saturating_device, false},
          {"devices with corners", check_corner_devices, false},
          {"textbook circuits", check_textbook_circuits, true},
          {"pulls across a gap", check_gap_fringing, true},
          {"wire gauges", check_wire_gauges, true}};
}

std::vector<Check> Validation::checks() const {
  std::vector<Check> all;
  for (const auto& record : records) all.insert(all.end(), record->checks.begin(), record->checks.end());
  return all;
}

Validation validate(const std::vector<Family>& families, int threads,
                    const std::function<void(const std::string& name, std::size_t done)>& on_done) {
  Validation all;
  for (std::size_t i = 0; i < families.size(); ++i) all.records.push_back(std::make_unique<Record>());
  std::atomic<std::size_t> next{0};
  std::size_t done = 0;
  std::mutex one_at_a_time;
  std::exception_ptr trouble;
  const auto work = [&] {
    for (std::size_t i = next++; i < families.size(); i = next++) {
      std::exception_ptr mine;
      try {
        families[i].run(*all.records[i]);
      } catch (...) {
        mine = std::current_exception();
        next = families.size();
      }
      const std::lock_guard<std::mutex> lock(one_at_a_time);
      if (mine && !trouble) trouble = mine;
      if (!mine && on_done) on_done(families[i].name, ++done);
    }
  };
  std::vector<std::thread> pool;
  try {
    for (int i = 1; i < std::max(1, threads); ++i) pool.emplace_back(work);
  } catch (const std::exception&) {  // no more threads: those that run do it all
  }
  work();
  for (std::thread& thread : pool) thread.join();
  if (trouble) std::rethrow_exception(trouble);
  return all;
}

}  // namespace coilpull
