// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/modelica_text.hpp"

#include "apps/output/number_text.hpp"
#include "apps/output/plain_text.hpp"

namespace coilpull {
namespace {

std::string matrix(const SampledTable& table, const char* name, double CoenergyPoint::*what) {
  std::string text = "double " + std::string(name) + "(" + std::to_string(table.displacement.size() + 1) +
                     "," + std::to_string(table.current_A.size() + 1) + ")\n0";
  for (const double i : table.current_A) text += " " + shortest(i);
  for (std::size_t z = 0; z < table.displacement.size(); ++z) {
    text += "\n" + shortest(table.displacement[z]);
    for (std::size_t i = 0; i < table.current_A.size(); ++i) text += " " + shortest(table.at(z, i).*what);
  }
  return text + "\n";
}

}  // namespace

std::string modelica_text(const SampledTable& table, const std::string& file_name) {
  std::string text = "#1\n# " + plain_text(table.title) + ", circuit " + plain_text(table.circuit) + "\n";
  for (const std::string& note : table.notes) text += "# " + plain_text(note) + "\n";
  text +=
      "# u1 = displacement [m], u2 = current [A]; force [N], flux_linkage [Wb], force_per_ampere [N/A],\n"
      "# inductance [H], coenergy [J]. Wiring, in a model with Modelica.Blocks.Tables:\n"
      "#   CombiTable2Ds force(tableOnFile=true, tableName=\"force\", fileName=\"" +
      file_name +
      "\");\n"
      "#   CombiTable2Ds linkage(tableOnFile=true, tableName=\"flux_linkage\", fileName=\"" +
      file_name +
      "\");\n"
      "#   equation force.u1 = s; force.u2 = i; linkage.u1 = s; linkage.u2 = i;\n"
      "#   v = R*i + der(linkage.y);  m*der(der(s)) = force.y;\n"
      "# Both tables are slopes of one coenergy; reading them by straight lines loses some of that.\n";
  text += matrix(table, "force", &CoenergyPoint::force_N);
  text += matrix(table, "flux_linkage", &CoenergyPoint::linkage_Wb);
  text += matrix(table, "force_per_ampere", &CoenergyPoint::force_per_ampere);
  text += matrix(table, "inductance", &CoenergyPoint::inductance_H);
  text += matrix(table, "coenergy", &CoenergyPoint::coenergy_J);
  return text;
}

}  // namespace coilpull
