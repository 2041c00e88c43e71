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
std::string obstacle(const Mesh& mesh, const Locator& locator, const Group& group,
                     const std::vector<Pose>& poses) {
  for (const AxialCharge& magnet : group.magnets)
    for (const Pose& pose : poses)
      for (const Point& at : surface_points(magnet.outline, pose)) {
        const int triangle = locator.locate(at).triangle;
        const std::string& name = mesh.region_names[static_cast<std::size_t>(mesh.region_of[triangle])];
        if (name != air_name) return name;
      }
  return {};
}

/// From the first of a pair as it is, from the second turned back.
OffsetForce from_coil(std::size_t coil, OffsetForce force) {
  if (coil == 1) force.side_N = -force.side_N, force.torque_Nm = -force.torque_Nm;
  return force;
}

OffsetForce total(const Group& group, const std::vector<Pose>& poses, const Field& field, int pieces) {
  const AxisymmetricField b = [&](Point at) { return flux_density(field, at); };
  OffsetForce sum;
  for (std::size_t k = 0; k < poses.size(); ++k)
    for (const AxialCharge& magnet : group.magnets)
      sum += from_coil(k, force_in_field(magnet, poses[k], b, pieces));
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

/// The second coil's answer is seen in its turned view.
std::vector<OffsetAnswer> answers_of_each(const Group& group, const std::vector<Pose>& poses,
                                          const Field& low, const Field& high) {
  std::vector<OffsetAnswer> each;
  for (std::size_t k = 0; k < poses.size(); ++k) {
    each.push_back(answer(group, {poses[k]}, low, high));
    each.back().value = from_coil(k, each.back().value);
  }
  return each;
}

/// Places of OffsetPoint::way, the asked one last; only that where it is the axis itself.
std::vector<OffsetQuestion> way_to(const OffsetQuestion& question) {
  constexpr int steps = 20;
  if (question.offset == 0 && question.tilt == 0) return {question};
  std::vector<OffsetQuestion> way(steps + 1, question);
  for (int k = 0; k < steps; ++k) {
    way[static_cast<std::size_t>(k)].offset = question.offset * k / steps;
    way[static_cast<std::size_t>(k)].tilt = question.tilt * k / steps;
  }
  return way;
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
  const std::vector<OffsetQuestion> way = way_to(question);
  const std::vector<Pose> centred = {{0, 0, group.pivot_z}}, poses = poses_of(question, group.pivot_z);
  std::vector<Pose> all = centred;
  for (const OffsetQuestion& place : way)
    for (const Pose& pose : poses_of(place, group.pivot_z)) all.push_back(pose);
  const Device empty = emptied(device, group, all);
  std::vector<OffsetQuestion> free;
  try {
    const Mesh mesh = mesher.mesh(section_at(empty, question.displacement, resolution_for(empty.tolerance)));
    const Locator locator(mesh);
    if (const std::string part = obstacle(mesh, locator, group, poses); !part.empty()) {
      why = "there a magnet would run into " + part + ".";
      return std::nullopt;
    }
    for (const OffsetQuestion& place : way)
      if (obstacle(mesh, locator, group, poses_of(place, group.pivot_z)).empty()) free.push_back(place);
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
  OffsetPoint point{answer(group, centred, low->field, high->field),
                    answer(group, poses, low->field, high->field)};
  if (question.pair_distance) point.each = answers_of_each(group, poses, low->field, high->field);
  if (free.size() > 1)
    for (const OffsetQuestion& place : free)
      point.way.push_back(
          {place.offset, place.tilt, answer(group, poses_of(place, group.pivot_z), low->field, high->field)});
  return point;
}

}  // namespace coilpull
