// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/tube_core_rod_magnet.json, an independent device: saturating tube core in a coil,
// rod magnet through its bore, 4 displacements by 4 currents. Computed with a general-purpose finite-element
// library (order 4, about 25 000 triangles, half circle 40 times the device), good to 1.4e-7 of the peak
// force; conventions inside.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "apps/validation/fe_path.hpp"
#include "tests/near.hpp"

using namespace coilpull;
using nlohmann::json;

namespace {

json reference() {
  std::ifstream file(std::string(COILPULL_SOURCE_DIR) + "/data/published/tube_core_rod_magnet.json");
  return json::parse(file);
}

Point point_of(const json& mm) { return {1e-3 * mm[0].get<double>(), 1e-3 * mm[1].get<double>()}; }

Device device_of(const json& all) {
  Device device;
  for (const json& part : all["parts"]) {
    const std::string name = part["name"], type = part["type"];
    const Point from = point_of({part["r"][0], part["z"][0]}), to = point_of({part["r"][1], part["z"][1]});
    const Box box = {from.r, to.r, from.z, to.z};
    if (part["moving"]) device.moving.push_back(name);
    if (type == "coil") device.coils.push_back(coil_of(name, box, part["turns"]));
    if (type == "coil") device.circuits.push_back(name);
    if (type == "magnet") device.magnets.push_back(magnet_of(name, box, part["Br"], part["mu_r"]));
    if (type != "iron") continue;
    const json& steel = all["materials"][part["material"].get<std::string>()];
    device.cores.push_back({name, rectangle(box.r_from, box.r_to, box.z_from, box.z_to),
                            FroehlichLaw{steel["Js_T"], steel["Ha_A_per_m"]}, "steel"});
  }
  for (const json& at : all["probe_points_mm"]) device.sensors.push_back({"probe", point_of(at)});
  return device;
}

}  // namespace

TEST_CASE(
    "force, linkage, coenergy and field of an independently computed device are met to 1e-4 of their peaks") {
  const json all = reference();
  const Device device = device_of(all);
  const Point core_point = point_of(all["core_point_mm"]);
  double peak_N = 0, peak_Wb = 0, peak_J = 0, peak_T = 0;
  for (const json& row : all["points"]) {
    peak_N = std::max(peak_N, std::abs(row["force_N"].get<double>()));
    peak_Wb = std::max(peak_Wb, std::abs(row["flux_linkage_Wb"]["coil"].get<double>()));
    peak_J = std::max(peak_J, std::abs(row["coenergy_J"].get<double>()));
    for (const json& probe : row["probes_T"])
      peak_T = std::max(peak_T, std::hypot(probe["Br"].get<double>(), probe["Bz"].get<double>()));
  }
  CHECK(peak_N == near(all["peak_force_N"], 1e-12));

  FePath path(4, {2.0});  // leaves 1e-5 of the peaks
  int rows_checked = 0;
  for (const json& displacement_mm : all["displacements_mm"]) {
    std::vector<json> rows;
    std::vector<std::vector<double>> currents_A;
    for (const json& row : all["points"]) {
      if (row["displacement_mm"] != displacement_mm) continue;
      rows.push_back(row);
      currents_A.push_back({row["currents_A"]["coil"]});
    }
    const auto solved = path.solve(device, 1e-3 * displacement_mm.get<double>(), currents_A);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      INFO("displacement " << displacement_mm << " mm, current " << currents_A[i][0] << " A");
      const json& row = rows[i];
      CHECK(std::abs(solved[i].force_N - row["force_N"].get<double>()) < 1e-4 * peak_N);
      CHECK(std::abs(solved[i].linkage_Wb[0] - row["flux_linkage_Wb"]["coil"].get<double>()) <
            1e-4 * peak_Wb);
      CHECK(std::abs(solved[i].coenergy_J - row["coenergy_J"].get<double>()) < 1e-4 * peak_J);
      for (const json& probe : row["probes_T"]) {
        const Point at = point_of({probe["r_mm"], probe["z_mm"]});
        const double off_r = solved[i].b_r(at) - probe["Br"].get<double>();
        const double off_z = solved[i].b_z(at) - probe["Bz"].get<double>();
        CHECK(std::hypot(off_r, off_z) < 1e-4 * peak_T);
      }
      const double in_core = std::hypot(solved[i].b_r(core_point), solved[i].b_z(core_point));
      CHECK(std::abs(in_core - row["core_point_absB_T"].get<double>()) < 2e-4);  // known to 1e-4
      ++rows_checked;
    }
  }
  CHECK(rows_checked == 16);
}
