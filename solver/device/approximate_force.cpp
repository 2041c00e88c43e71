// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/approximate_force.hpp"

#include <algorithm>
#include <cmath>

#include "solver/closed_form/axial_magnet.hpp"
#include "solver/closed_form/image.hpp"
#include "solver/closed_form/thick_coil.hpp"

namespace coilpull {

namespace {

/// A coil (turns) or a magnet (remanence) at its place.
struct Source {
  std::string name;
  Box box;
  bool moving;
  Eigen::Index current;  ///< place of what drives it in x = (1, currents): 0 for a magnet
  double strength;       ///< turns with their sense, or remanence [T]
  double recoil = 1;
};

Box box_at(const std::string& name, const Outline& outline, double shift) {
  const Box box = bounding_box(moved(outline, shift));
  const double full = (box.r_to - box.r_from) * (box.z_to - box.z_from);
  if (std::abs(area(outline) - full) > 1e-9 * full)
    throw NotDescribed(name + " is no tube or cylinder with square corners, and only those have a formula");
  return box;
}

std::vector<Source> sources_of(const Device& device, double displacement) {
  std::vector<Source> sources;
  const auto shift = [&](const std::string& name) { return is_moving(device, name) ? displacement : 0; };
  for (const Coil& coil : device.coils) {
    const auto circuit = std::find(device.circuits.begin(), device.circuits.end(), coil.circuit);
    sources.push_back({coil.name, box_at(coil.name, coil.outline, shift(coil.name)),
                       is_moving(device, coil.name), 1 + (circuit - device.circuits.begin()),
                       coil.turns * coil.sense});
  }
  for (const Magnet& magnet : device.magnets) {
    if (magnet.law.remanence_r_T != 0)
      throw NotDescribed(magnet.name +
                         " is not magnetised along +z or -z, and only such magnets have a formula");
    sources.push_back({magnet.name, box_at(magnet.name, magnet.outline, shift(magnet.name)),
                       is_moving(device, magnet.name), 0, magnet.law.remanence_z_T,
                       magnet.law.recoil_permeability});
  }
  return sources;
}

AxialMagnet magnet_of(const Source& source) { return {source.box, source.strength, source.recoil}; }

/// Axial force on the one by the other, each coil with 1 A.
double unit_force(const Source& on, const Source& by) {
  if (on.current > 0 && by.current > 0) return on.strength * by.strength * inductance_slope(on.box, by.box);
  if (on.current > 0) return -force_on(magnet_of(by), on.box, on.strength);
  if (by.current > 0) return force_on(magnet_of(on), by.box, by.strength);
  return force_on(magnet_of(on), magnet_of(by));
}

struct Plate {
  Box box;
  bool moving;
};

Plate plate_of(const Device& device, double displacement) {
  if (device.cores.size() != 1)
    throw NotDescribed("it describes one disc of steel, and there are " +
                       std::to_string(device.cores.size()) + " parts of steel");
  const Core& core = device.cores.front();
  const bool moving = is_moving(device, core.name);
  const Box box = box_at(core.name, core.outline, moving ? displacement : 0);
  if (box.r_from > 0) throw NotDescribed(core.name + " has a bore, and it describes a full disc of steel");
  return {box, moving};
}

/// The face of the plate that every source looks at [m].
double mirror_plane(const Plate& plate, const std::vector<Source>& sources) {
  const auto all = [&](auto is) { return std::all_of(sources.begin(), sources.end(), is); };
  if (all([&](const Source& source) { return source.box.z_from >= plate.box.z_to; })) return plate.box.z_to;
  if (all([&](const Source& source) { return source.box.z_to <= plate.box.z_from; })) return plate.box.z_from;
  throw NotDescribed(
      "it describes coils and magnets all on one side of the steel, and here the steel reaches "
      "between or beside them");
}

void add(Eigen::MatrixXd& q, const Source& on, const Source& by, double factor) {
  q(on.current, by.current) += factor * unit_force(on, by);
}

}  // namespace

const char* word_for(Approximation approximation) {
  return approximation == Approximation::current_sheets ? "current_sheets" : "mirror_image";
}

std::vector<Approximation> all_approximations() {
  return {Approximation::current_sheets, Approximation::mirror_image};
}

double ForceFormula::at(const std::vector<double>& currents_A) const {
  Eigen::VectorXd x(q.rows());
  x(0) = 1;
  for (std::size_t k = 0; k < currents_A.size(); ++k) x(static_cast<Eigen::Index>(k) + 1) = currents_A[k];
  return x.dot(q * x);
}

ForceFormula approximate_force(const Device& device, Approximation approximation, double displacement) {
  const std::vector<Source> sources = sources_of(device, displacement);
  if (device.moving.empty()) throw NotDescribed("nothing moves, so that there is no force to tell");
  const bool with_plate = approximation == Approximation::mirror_image;
  const Plate plate = with_plate ? plate_of(device, displacement) : Plate{};
  const double plane = with_plate ? mirror_plane(plate, sources) : 0;

  // With a moving plate the force on it and on what moves with it is the opposite of that on all the rest.
  const bool on_fixed = with_plate && plate.moving;
  const double sign = on_fixed ? -1 : 1;
  const auto n = static_cast<Eigen::Index>(device.circuits.size()) + 1;
  ForceFormula formula{Eigen::MatrixXd::Zero(n, n)};
  bool some_pair = false;
  for (const Source& on : sources) {
    if (on.moving == on_fixed) continue;
    for (const Source& by : sources) {
      if (by.moving != on.moving) {
        add(formula.q, on, by, sign);
        some_pair = true;
      }
      if (!with_plate) continue;
      Source image = by;
      image.box = mirrored(by.box, plane);
      add(formula.q, on, image, sign);
      some_pair = true;
    }
  }
  if (!some_pair)
    throw NotDescribed(
        "it knows only what pulls between coils and magnets, and no moving one meets a fixed one");
  return formula;
}

}  // namespace coilpull
