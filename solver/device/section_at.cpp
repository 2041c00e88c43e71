// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/section_at.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "materials/constants.hpp"
#include "materials/detail/nan.hpp"
#include "meshing/bad_section.hpp"
#include "meshing/check_section.hpp"
#include "solver/device/size_wishes.hpp"

namespace coilpull {
namespace {

std::vector<Region> parts_at(const Device& device, double displacement) {
  std::vector<Region> parts;
  const auto put = [&](const auto& list) {
    for (const auto& part : list)
      parts.push_back(
          {part.name, is_moving(device, part.name) ? moved(part.outline, displacement) : part.outline});
  };
  put(device.cores);
  put(device.coils);
  put(device.magnets);
  return parts;
}

/// The pair of a moving and a fixed part that come closest.
struct Approach {
  double distance = nan;
  std::string moving, fixed;
};

Approach closest_approach(const Device& device, const std::vector<Region>& parts) {
  Approach closest;
  for (const Region& a : parts)
    for (const Region& b : parts) {
      if (!is_moving(device, a.name) || is_moving(device, b.name)) continue;
      const double between = distance(a.outline, b.outline);
      if (!(closest.distance <= between)) closest = {between, a.name, b.name};
    }
  return closest;
}

/// Parts of one group keep their distance along the stroke: they touch, or leave a gap that can be solved.
void check_gaps_within_groups(const Device& device, const std::vector<Region>& parts, double least,
                              double touching) {
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (std::size_t j = i + 1; j < parts.size(); ++j) {
      if (is_moving(device, parts[i].name) != is_moving(device, parts[j].name)) continue;
      const double between = distance(parts[i].outline, parts[j].outline);
      if (between <= touching || between >= least) continue;
      char what[400];
      std::snprintf(
          what, sizeof what,
          "%s and %s leave a gap of %.3g mm; the least allowed is %.3g mm. Let them touch, or draw the gap.",
          parts[i].name.c_str(), parts[j].name.c_str(), 1e3 * between, 1e3 * least);
      throw BadSection(parts[i].name, parts[j].name, what);
    }
}

}  // namespace

HalfCircle half_circle_of(const Device& device, double ratio) {
  std::vector<Point> points;  // corners of the boxes of all parts at the ends of the stroke
  for (const double displacement : device.displacements)
    for (const Region& part : parts_at(device, displacement)) {
      const Box box = bounding_box(part.outline);
      points.push_back({box.r_to, box.z_from});
      points.push_back({box.r_to, box.z_to});
    }
  for (const Sensor& sensor : device.sensors)
    points.push_back({sensor.at.r + sensor.face_radius, sensor.at.z});
  const auto radius_from = [&](double centre) {
    double most = 0;
    for (const Point& p : points) most = std::max(most, std::hypot(p.r, p.z - centre));
    return most;
  };
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Point& p : points) low = std::min(low, p.z), high = std::max(high, p.z);
  for (int i = 0; i < 100; ++i) {  // the radius is a convex function of the centre
    const double third = (high - low) / 3;
    if (radius_from(low + third) < radius_from(high - third))
      high -= third;
    else
      low += third;
  }
  return {0.5 * (low + high), ratio * radius_from(0.5 * (low + high))};
}

Section section_at(const Device& device, double displacement, const Resolution& resolution) {
  Section section{parts_at(device, displacement), half_circle_of(device, resolution.outer_ratio), {}};
  section.sizes = size_wishes(device, section.parts, section.outer, displacement, resolution);
  return section;
}

double clearance_at(const Device& device, double displacement) {
  return closest_approach(device, parts_at(device, displacement)).distance;
}

void check_stroke(const Device& device) {
  const HalfCircle outer = half_circle_of(device, Resolution{}.outer_ratio);
  const double least = 1e-5 * outer.radius / Resolution{}.outer_ratio;
  check_gaps_within_groups(device, parts_at(device, 0), least, coincident * outer.radius);
  for (const double displacement : device.displacements) {
    const Section section{parts_at(device, displacement), outer, {outer.radius, {}}};
    const Approach closest = closest_approach(device, section.parts);
    char where[400];
    try {
      check_section(section);
    } catch (const BadSection& bad) {
      std::snprintf(where, sizeof where, "%s (at displacement %.6g mm)", bad.what(), 1e3 * displacement);
      throw BadSection(bad.first, bad.second, where);
    }
    if (!(closest.distance < least)) continue;
    char how[60] = "touches";
    if (closest.distance > coincident * outer.radius)
      std::snprintf(how, sizeof how, "comes within %.3g mm of", 1e3 * closest.distance);
    std::snprintf(
        where, sizeof where,
        "at displacement %.6g mm the moving part %s %s the fixed part %s; the least distance allowed is "
        "%.3g mm. Leave a stated residual gap instead of contact.",
        1e3 * displacement, closest.moving.c_str(), how, closest.fixed.c_str(), 1e3 * least);
    throw BadSection(closest.moving, closest.fixed, where);
  }
}

}  // namespace coilpull
