// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/offset/offset_point.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "meshing/bad_section.hpp"
#include "meshing/locate.hpp"
#include "solver/closed_form/axial_magnet.hpp"
#include "solver/device/section_at.hpp"
#include "solver/refine/resolution_for.hpp"

namespace coilpull {
namespace {

constexpr int low_order = 3;          ///< of the fields whose difference is the bar
constexpr double order_safety = 1.5;  ///< as in solver/refine

/// The moving magnets where they stand on the axis, and the point they are turned about.
struct Group {
  std::vector<AxialCharge> magnets;
  double pivot_z;
};

Group group_at(const Device& device, double displacement) {
  Group group{{}, 0};
  double low = HUGE_VAL, high = -HUGE_VAL;
  for (const Magnet& magnet : device.magnets) {
    const Box box = bounding_box(moved(magnet.outline, displacement));
    const double weakened =  // as the cylinder or tube that bounds it
        recoil_factor({box, magnet.law.remanence_z_T, magnet.law.recoil_permeability});
    group.magnets.push_back({moved(magnet.outline, displacement), weakened * magnet.law.remanence_z_T});
    low = std::min(low, box.z_from);
    high = std::max(high, box.z_to);
  }
  group.pivot_z = 0.5 * (low + high);
  return group;
}

/// Both poses of a pair, or the one; the second coil sees the magnet in a view turned by half a turn about z.
std::vector<Pose> poses_of(const OffsetQuestion& question, double pivot_z) {
  if (!question.pair_distance) return {{question.offset, question.tilt, pivot_z}};
  const double half = *question.pair_distance / 2;
  return {{half + question.offset, question.tilt, pivot_z},
          {half - question.offset, -question.tilt, pivot_z}};
}

/// The device without its magnets, with air meshed as far as they reach.
Device emptied(Device device, const Group& group, const std::vector<Pose>& poses) {
  device.magnets.clear();
  device.moving.clear();
  device.sensors.clear();
  Box reach{0, 0, HUGE_VAL, -HUGE_VAL};
  for (const AxialCharge& magnet : group.magnets)
    for (const Pose& pose : poses)
      for (const Point& at : surface_points(magnet.outline, pose)) {
        reach.r_to = std::max(reach.r_to, at.r);
        reach.z_from = std::min(reach.z_from, at.z);
        reach.z_to = std::max(reach.z_to, at.z);
      }
  device.sensors.push_back({"reach_low", {reach.r_to, reach.z_from}});
  device.sensors.push_back({"reach_high", {reach.r_to, reach.z_to}});
  return device;
}

/// Name of a part that some point of the surface lies in; empty: all is air.
std::string obstacle(const Device& empty, double displacement, const Group& group,
                     const std::vector<Pose>& poses, Mesher& mesher) {
  const Mesh mesh = mesher.mesh(section_at(empty, displacement, resolution_for(empty.tolerance)));
  const Locator locator(mesh);
  for (const AxialCharge& magnet : group.magnets)
    for (const Pose& pose : poses)
      for (const Point& at : surface_points(magnet.outline, pose)) {
        const int triangle = locator.locate(at).triangle;
        const std::string& name = mesh.region_names[static_cast<std::size_t>(mesh.region_of[triangle])];
        if (name != air_name) return name;
      }
  return {};
}

OffsetForce total(const Group& group, const std::vector<Pose>& poses, const Field& field, int pieces) {
  const AxisymmetricField b = [&](Point at) { return flux_density(field, at); };
  OffsetForce sum;
  for (std::size_t k = 0; k < poses.size(); ++k)
    for (const AxialCharge& magnet : group.magnets) {
      OffsetForce one = force_in_field(magnet, poses[k], b, pieces);
      if (k == 1) one.side_N = -one.side_N, one.torque_Nm = -one.torque_Nm;  // turned back
      sum += one;
    }
  return sum;
}

OffsetAnswer answer(const Group& group, const std::vector<Pose>& poses, const Field& low, const Field& high) {
  const OffsetForce fine = total(group, poses, high, 4);
  const OffsetForce rough = total(group, poses, low, 4), coarse = total(group, poses, high, 2);
  const auto bar = [&](double OffsetForce::*what) {
    return order_safety * std::abs(fine.*what - rough.*what) + std::abs(fine.*what - coarse.*what);
  };
  return {fine, {bar(&OffsetForce::axial_N), bar(&OffsetForce::side_N), bar(&OffsetForce::torque_Nm)}};
}

}  // namespace

std::string why_no_offset(const Device& device) {
  if (device.coils.empty())
    return "the device has no coil: the force of a current is all that is told off axis.";
  if (device.magnets.empty()) return "the device has no magnet: off axis only a magnet can be asked about.";
  for (const Magnet& magnet : device.magnets) {
    if (!is_moving(device, magnet.name)) return "magnet " + magnet.name + " does not move.";
    if (magnet.law.remanence_r_T != 0) return "magnet " + magnet.name + " is not magnetised along the axis.";
  }
  if (device.moving.size() != device.magnets.size())
    return "not only magnets move: what steel or a winding does off the axis is not known.";
  return {};
}

std::optional<OffsetPoint> offset_point(const Device& device, const OffsetQuestion& question, Mesher& mesher,
                                        std::string& why) {
  const Group group = group_at(device, question.displacement);
  const std::vector<Pose> poses = poses_of(question, group.pivot_z);
  const std::vector<Pose> centred = {{0, 0, group.pivot_z}};
  std::vector<Pose> all = poses;
  all.push_back(centred.front());
  const Device empty = emptied(device, group, all);
  try {
    if (const std::string part = obstacle(empty, question.displacement, group, poses, mesher);
        !part.empty()) {
      why = "there a magnet would run into " + part + ".";
      return std::nullopt;
    }
  } catch (const std::runtime_error& trouble) {  // no mesh
    why = trouble.what();
    return std::nullopt;
  }
  const auto low = solve_point(empty, question.displacement, question.currents_A, low_order, mesher);
  const auto high = solve_point(empty, question.displacement, question.currents_A, low_order + 1, mesher);
  if (!low || !high) {
    why = "the field of coil and core could not be solved.";
    return std::nullopt;
  }
  return OffsetPoint{answer(group, centred, low->field, high->field),
                     answer(group, poses, low->field, high->field)};
}

}  // namespace coilpull
