// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"

namespace coilpull {
namespace {

using nlohmann::json;

Device device_of(const json& all) {
  Device device;
  for (const json& part : all["parts"]) {
    const std::string name = part["name"], type = part["type"];
    const Box box{1e-3 * part["r"][0].get<double>(), 1e-3 * part["r"][1].get<double>(),
                  1e-3 * part["z"][0].get<double>(), 1e-3 * part["z"][1].get<double>()};
    if (part["moving"]) device.moving.push_back(name);
    if (type == "coil") device.coils.push_back(coil_of(name, box, part["turns"]));
    if (type == "coil") device.circuits.push_back(name);
    if (type == "magnet") device.magnets.push_back(magnet_of(name, box, part["Br"], part["mu_r"]));
    if (type != "iron") continue;
    const json& steel = all["materials"][part["material"].get<std::string>()];
    device.cores.push_back({name, rectangle(box.r_from, box.r_to, box.z_from, box.z_to),
                            FroehlichLaw{steel["Js_T"], steel["Ha_A_per_m"]}, "steel"});
  }
  return device;
}

const json& point_at(const json& all, double displacement_mm, double current_A) {
  for (const json& point : all["points"])
    if (point["displacement_mm"] == displacement_mm && point["currents_A"]["coil"] == current_A) return point;
  throw std::runtime_error("tube_core_rod_magnet.json: a point is missing");
}

}  // namespace

void check_saturating_device(Record& record) {
  const std::string file = "tube_core_rod_magnet.json";
  const Source* source = record.source(
      "saturating tube core and rod magnet",
      "Independent finite elements of a general-purpose library (order 4, 25 000 triangles, 40 times the "
      "device): "
      "saturating tube core in a coil, rod magnet through its bore, with that computation's error estimates",
      file);
  std::ifstream stream(published_path(file));
  const json all = json::parse(stream);
  const auto displacements = all["displacements_mm"].get<std::vector<double>>();
  std::vector<double> displacements_m;
  for (const double mm : displacements) displacements_m.push_back(1e-3 * mm);
  std::vector<std::vector<double>> currents;
  for (const json& one : all["currents_A"]) currents.push_back({one["coil"]});
  const ForceTable ours = swept(device_of(all), displacements_m, currents);
  for (std::size_t d = 0; d < displacements.size(); ++d)
    for (std::size_t c = 0; c < currents.size(); ++c) {
      const json& point = point_at(all, displacements[d], currents[c][0]);
      const Measurement& row = ours.rows[d * currents.size() + c];
      const std::string words =
          "at " + shortest(displacements[d]) + " mm, " + shortest(currents[c][0]) + " A: ";
      record.by_finite_elements(
          {source, words + "force", "N", point["force_N"].dump(), point["force_err_N"].get<double>()},
          row.force_N);
      record.by_finite_elements(
          {source, words + "flux linkage", "Wb", point["flux_linkage_Wb"]["coil"].dump(),
           point["flux_linkage_err_Wb"]["coil"].get<double>()},
          row.linkage_Wb[0]);
    }
}

}  // namespace coilpull
