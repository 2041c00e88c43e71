// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/parameter.hpp"

#include <algorithm>

#include "apps/device_file/bad_device.hpp"
#include "apps/device_file/nearest_name.hpp"
#include "materials/scaled_law.hpp"

namespace coilpull {
namespace {

[[noreturn]] void refuse_fit(const std::string& given, const std::string& fact, const std::string& advice) {
  throw BadDevice("--fit " + given + ": " + fact + "\n  " + advice);
}

template <class Part>
std::vector<std::string> names_of(const std::vector<Part>& parts) {
  std::vector<std::string> names;
  names.reserve(parts.size());
  for (const Part& part : parts) names.push_back(part.name);
  return names;
}

/// The part that is meant among these.
std::string chosen_part(const std::string& given, const std::string& word, const std::string& part,
                        const std::vector<std::string>& names, const std::string& kind) {
  if (names.empty()) refuse_fit(given, "the device has no " + kind + ".", "Fit something else.");
  if (part.empty() && names.size() == 1) return names.front();
  if (part.empty())
    refuse_fit(given, "the device has several of kind " + kind + ".",
               "Say which: --fit " + word + "=" + names.front() + "; there is: " + listed(names) + ".");
  if (std::find(names.begin(), names.end(), part) == names.end())
    refuse_fit(given, "no " + kind + " is called " + part + ".", did_you_mean(part, names));
  return part;
}

Parameter read_parameter(const std::string& given, const Device& device, const std::string& device_file) {
  const std::size_t sign = given.find('=');
  const std::string word = given.substr(0, sign),
                    part = sign == std::string::npos ? "" : given.substr(sign + 1);
  if (word == "offset" && part.empty()) return {Parameter::Kind::offset, ""};
  if (word == "remanence")
    return {Parameter::Kind::remanence, chosen_part(given, word, part, names_of(device.magnets), "magnet")};
  if (word == "saturation") {
    const Parameter read{Parameter::Kind::saturation,
                         chosen_part(given, word, part, names_of(device.cores), "core")};
    for (const Core& core : device.cores)
      if (core.name == read.part && !with_polarization(core.law, 1))
        refuse_fit(given, "the law of core " + core.name + " in " + device_file + " cannot be scaled.",
                   "Give it as points of B and H.");
    return read;
  }
  refuse_fit(given, "nothing of that name can be fitted.",
             "Allowed: remanence, remanence=MAGNET, offset, saturation, saturation=CORE.");
}

}  // namespace

std::string words_for(const Parameter& parameter) {
  switch (parameter.kind) {
    case Parameter::Kind::remanence:
      return "remanence of " + parameter.part;
    case Parameter::Kind::saturation:
      return "saturation of " + parameter.part;
    case Parameter::Kind::offset:
      break;
  }
  return "offset";
}

std::vector<Parameter> read_parameters(const std::vector<std::string>& given, const Device& device,
                                       const std::string& device_file) {
  std::vector<Parameter> parameters;
  for (const std::string& words : given) {
    const Parameter read = read_parameter(words, device, device_file);
    for (const Parameter& other : parameters)
      if (words_for(other) == words_for(read))
        refuse_fit(words, "is asked for twice.", "Keep one of the two.");
    parameters.push_back(read);
  }
  return parameters;
}

Device with_values(Device device, const std::vector<Parameter>& parameters, const Eigen::VectorXd& values) {
  for (std::size_t k = 0; k < parameters.size(); ++k) {
    const Parameter& parameter = parameters[k];
    const double value = values[static_cast<Eigen::Index>(k)];
    if (parameter.kind == Parameter::Kind::offset)
      for (double& displacement : device.displacements) displacement += value;
    for (Magnet& magnet : device.magnets)
      if (parameter.kind == Parameter::Kind::remanence && magnet.name == parameter.part) {
        magnet.law.remanence_r_T *= value;
        magnet.law.remanence_z_T *= value;
      }
    for (Core& core : device.cores)
      if (parameter.kind == Parameter::Kind::saturation && core.name == parameter.part)
        core.law = *with_polarization(core.law, value);
  }
  return device;
}

}  // namespace coilpull
