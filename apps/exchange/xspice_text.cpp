// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/xspice_text.hpp"

#include "apps/output/number_text.hpp"
#include "apps/output/plain_text.hpp"

namespace coilpull {
namespace {

std::string table_text(const SampledTable& table, const char* what, double CoenergyPoint::*value) {
  std::string text = std::string("* ") + what + "; x: displacement [m], y: current [A]; " +
                     plain_text(table.title) + ", circuit " + plain_text(table.circuit) + "\n" +
                     std::to_string(table.displacement.size()) + "\n" +
                     std::to_string(table.current_A.size()) + "\n";
  for (const double z : table.displacement) text += shortest(z) + " ";
  text += "\n";
  for (const double i : table.current_A) text += shortest(i) + " ";
  text += "\n";
  for (std::size_t i = 0; i < table.current_A.size(); ++i) {
    for (std::size_t z = 0; z < table.displacement.size(); ++z) text += shortest(table.at(z, i).*value) + " ";
    text += "\n";
  }
  return text;
}

}  // namespace

std::string xspice_force(const SampledTable& table) {
  return table_text(table, "force [N]", &CoenergyPoint::force_N);
}

std::string xspice_linkage(const SampledTable& table) {
  return table_text(table, "flux linkage [Wb]", &CoenergyPoint::linkage_Wb);
}

std::string xspice_subcircuit(const SampledTable& table, const std::string& name) {
  std::string text = "* " + plain_text(table.title) + ", circuit " + plain_text(table.circuit) + "\n";
  for (const std::string& note : table.notes) text += "* " + plain_text(note) + "\n";
  return text + R"(*
* plus minus: the coil's terminals, without its resistance. z: displacement, 1 V stands for 1 m.
* force: 1 V stands for 1 N, along +z. Start ngspice where the .table files are. Example, 1 ohm and 5 V at 2 mm:
*   .include )" +
         name + R"(.cir
*   vs in 0 pulse(0 5 0 1u 1u 1)
*   rw in a 1
*   vz z 0 2m
*   x1 a 0 z f )" +
         name + R"(
*   .tran 10u 50m
* A moving part of mass m [kg], start in m: replace vz by
*   bv 0 v i=v(f)/m
*   cv v 0 1
*   bz 0 z i=v(v)
*   cz z 0 1
*   .ic v(v)=0 v(z)=start
* v(v) is its speed in m/s; give it the stops of the stroke yourself. Not with uic: the linkage would start at 0.
.subckt )" +
         name + R"( plus minus z force
vsense plus inner 0
hcurrent current 0 vsense 1
aforce %v z %v current %v force tforce
.model tforce table2d(offset=0 gain=1 order=2 file=")" +
         name + R"(_force.table")
alinkage %v z %v current %v linkage tlinkage
.model tlinkage table2d(offset=0 gain=1 order=2 file=")" +
         name + R"(_linkage.table")
* d(linkage)/dt is the current through 1 F that the linkage stands across
crate linkage rate 1
vrate rate 0 0
hback inner minus vrate 1
rforce force 0 1meg
.ends )" +
         name + "\n";
}

}  // namespace coilpull
