// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/origin_json.hpp"

#include <Eigen/Core>
#include <nlohmann/json.hpp>

#include "apps/output/program_version.hpp"
#include "apps/output/sha256.hpp"
#include "meshing/mesh_generator_version.hpp"
#include "solver/field/cholmod_version.hpp"

namespace coilpull {
namespace {

using Json = nlohmann::ordered_json;

Json libraries() {
  return {{"Eigen", std::to_string(EIGEN_WORLD_VERSION) + "." + std::to_string(EIGEN_MAJOR_VERSION) + "." +
                        std::to_string(EIGEN_MINOR_VERSION)},
          {"Gmsh", mesh_generator_version()},
          {"CHOLMOD", cholmod_version()}};
}

/// The device in full, and by their hashes the files it was read from.
Json device(const Origin& origin) {
  Json entry = {{"file", origin.file_name}, {"sha256", sha256(origin.file_content)}};
  Json materials = Json::array();
  for (const UsedMaterial& used : origin.materials)
    materials.push_back({{"part", used.part},
                         {"material", used.name},
                         {"file", used.file_name},
                         {"sha256", sha256(used.file_content)}});
  entry["materials"] = materials;
  if (!origin.canonical_text.empty()) entry["canonical_text"] = origin.canonical_text;
  return entry;
}

}  // namespace

Json how_it_was_run(const RunOrigin& run) {
  Json made;
  made["program"] = "coilpull " + program_version();
  if (!run.command.empty()) made["command"] = run.command;
  made["libraries"] = libraries();
  Json inputs = Json::array();
  for (const Origin& origin : run.devices) inputs.push_back(device(origin));
  for (const InputFile& file : run.files)
    inputs.push_back({{"file", file.file_name}, {"sha256", file.sha256}});
  if (inputs.empty()) return made;
  made["input"] = inputs.front();
  inputs.erase(inputs.begin());
  if (!inputs.empty()) made["further_inputs"] = inputs;
  return made;
}

std::string description_text(const Json& description) {
  return description.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coilpull
