// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/two_stages.hpp"

#include <algorithm>
#include <cmath>

#include "solver/motion/stage_field.hpp"

namespace coilpull {
namespace {

constexpr const char* next = "_next";
constexpr int places = 9;

template <class Part>
void repeat(std::vector<Part>& parts, const Device& device, double pitch) {
  const std::size_t once = parts.size();
  for (std::size_t k = 0; k < once; ++k) {
    if (is_moving(device, parts[k].name)) continue;
    Part copy = parts[k];
    copy.name += next;
    copy.outline = moved(copy.outline, pitch);
    parts.push_back(copy);
  }
}

std::size_t index_of(const std::vector<std::string>& names, const std::string& name) {
  return static_cast<std::size_t>(std::find(names.begin(), names.end(), name) - names.begin());
}

}  // namespace

Device two_stages(const Device& device, double pitch) {
  Device two = device;
  repeat(two.cores, device, pitch);
  repeat(two.coils, device, pitch);
  repeat(two.magnets, device, pitch);
  for (std::size_t k = device.coils.size(); k < two.coils.size(); ++k) {
    two.coils[k].circuit += next;
    if (two.coils[k].bobbin) two.coils[k].bobbin->space = moved(two.coils[k].bobbin->space, pitch);
    if (std::find(two.circuits.begin(), two.circuits.end(), two.coils[k].circuit) == two.circuits.end())
      two.circuits.push_back(two.coils[k].circuit);
  }
  two.sensors.clear();
  return two;
}

RowCheck row_check(const DeviceFile& file, const DriveTable& drive, const StrokePlan& plan, double current_A,
                   const SolveChange& solve) {
  const double shift = plan.way * plan.pitch;
  Device two = two_stages(file.device, shift);
  const double from = std::min(drive.from(), drive.from() + shift),
               to = std::max(drive.to(), drive.to() + shift);
  two.displacements.clear();
  for (int k = 0; k < places; ++k) two.displacements.push_back(from + (to - from) * k / (places - 1));
  const std::size_t one = index_of(two.circuits, drive.circuit),
                    other = index_of(two.circuits, drive.circuit + next);
  two.currents_A.assign(3, std::vector<double>(two.circuits.size(), 0.0));
  two.currents_A[1][one] = two.currents_A[2][other] = current_A;
  const ForceTable table = solve(two, {});
  RowCheck check{};
  double peak = 0;
  for (const CoenergyRow& row : drive.rows)
    if (std::isfinite(row.force_N.value)) peak = std::max(peak, std::abs(row.force_N.value));
  for (const Measurement& row : table.rows) {
    if (!std::isfinite(row.force_N.value)) continue;
    const double z = row.displacement, a = row.currents_A[one], b = row.currents_A[other];
    // beyond the table of a stage its pull is a continuation: no true sum to compare with
    if (z < drive.from() || z > drive.to() || z - shift < drive.from() || z - shift > drive.to()) {
      const bool first_out = z < drive.from() || z > drive.to();
      if (first_out ? a != 0 : b != 0) continue;
    }
    const double sum =
        stage_field(drive.fit.function, z, a).force_N + stage_field(drive.fit.function, z - shift, b).force_N;
    ++check.points;
    const double difference = std::abs(row.force_N.value - sum);
    if (difference <= check.worst_N) continue;
    const auto bar = [&](double at, double current) {
      return at < drive.from() || at > drive.to() ? 0 : drive.force_N(at, current).error;
    };
    check.worst_N = difference;
    check.bar_N = row.force_N.error + bar(z, a) + bar(z - shift, b);
    check.at = z, check.first_A = a, check.next_A = b;
  }
  check.part = check.worst_N / peak;
  return check;
}

}  // namespace coilpull
