// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

/// A number of the device that is fitted to measurements.
struct Parameter {
  enum class Kind {
    remanence,   ///< factor on the remanence of a magnet
    offset,      ///< the true displacement is the one read plus this [m]
    saturation,  ///< factor on the polarization of a steel at every H, the saturation with it
  };
  Kind kind;
  std::string part;  ///< magnet or core; empty for an offset

  double start() const { return kind == Kind::offset ? 0 : 1; }  ///< as the device file says
};

std::string words_for(const Parameter& parameter);  ///< "remanence of plunger", "offset"

/// Reads "remanence", "offset", "saturation", "remanence=plunger", "saturation=sleeve".
/// @throws BadDevice  another word, twice the same, a part that is not there, or several to choose from, a
/// steel whose law cannot be scaled
std::vector<Parameter> read_parameters(const std::vector<std::string>& given, const Device& device,
                                       const std::string& device_file);

/// The device with these values; an offset shifts its displacements.
Device with_values(Device device, const std::vector<Parameter>& parameters, const Eigen::VectorXd& values);

}  // namespace coilpull
