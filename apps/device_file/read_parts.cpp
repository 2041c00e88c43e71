// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_parts.hpp"

#include <algorithm>

#include "apps/device_file/keys.hpp"
#include "apps/device_file/read_bobbin.hpp"
#include "apps/device_file/read_direction.hpp"
#include "apps/device_file/shapes.hpp"
#include "apps/device_file/wire_fit.hpp"
#include "materials/scaled_law.hpp"

namespace coilpull {

namespace {

bool has_bore(const Outline& outline) { return bounding_box(outline).r_from > 0; }

std::string read_circuit(const std::string& coil, const Table& table) {
  const auto value = table.find("circuit");
  if (!value) return coil;
  const std::string circuit = text(*value);
  if (!is_plain_name(circuit))
    refuse(value->place, "a circuit is named with letters, digits, _ and - only, at most 60 of them.");
  return circuit;
}

double read_turns(const Table& table, const std::string& circuit) {
  const Value value = table.need("turns", "Say how often the wire goes round, for example turns = 180");
  const double turns = number(value);
  if (turns < 1)
    refuse(value.place, "a coil needs at least 1 turn.",
           turns < 0 ? "A negative number does not reverse the pull: change the sign of " + circuit +
                           "_A in [current], or set sense = \"-\"."
                     : "");
  return turns;
}

double read_sense(const Table& table) {
  const auto value = table.find("sense");
  if (!value) return 1;
  const std::string sense = value->node->is_string() ? text(*value) : "";
  if (sense != "+" && sense != "-")
    refuse(value->place, "needs \"+\" or \"-\", in quotes.",
           "\"-\" is a coil wound against the positive direction of its circuit.");
  return sense == "+" ? 1 : -1;
}

}  // namespace

bool is_plain_name(const std::string& name) {
  return !name.empty() && name.size() <= 60 && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

Core read_core(const std::string& name, const Table& table, MaterialSources& sources, PartWords& words) {
  const Value material = table.need("material", "Name the steel, for example material = \"demo soft steel\"");
  NamedLaw steel = read_soft_material(material, table.text(), sources);
  if (const auto stacking = table.find("stacking_factor")) {
    words.stacking_factor = number(*stacking);
    if (!(words.stacking_factor > 0 && words.stacking_factor <= 1))
      refuse(stacking->place, "has to lie above 0 and be at most 1.",
             "It is the share of the stack that is steel, 0.95 to 0.98 for sheets of 0.35 to 0.5 mm.");
    if (words.stacking_factor < 1) {
      const std::optional<SoftLaw> stack = with_polarization(steel.law, words.stacking_factor);
      if (!stack)
        refuse(stacking->place, "a Brauer law cannot be thinned out.", "Give its points, or another law.");
      steel.law = *stack;
    }
  }
  Shape shape = read_shape(table);
  table.refuse_unread_keys();
  words.material = std::move(steel.as_toml);
  words.steel = std::move(steel.file);
  return {name, std::move(shape.outline), std::move(steel.law), std::move(steel.name)};
}

Coil read_coil(const std::string& name, const Table& table) {
  const Shape shape = read_shape(table);
  if (!has_bore(shape.outline))
    refuse(shape.value.place, "a coil cannot reach the axis.",
           "Draw it as tube = { inner_radius_mm, outer_radius_mm, from_mm, to_mm } around its bore.");
  const std::string circuit = read_circuit(name, table);
  Coil coil{name, shape.outline, read_turns(table, circuit), circuit};
  coil.sense = read_sense(table);
  coil.wire = read_wire(table);
  read_bobbin(table, coil);
  coil.packing = read_packing(table);
  coil.temperature_degC = read_winding_temperature(table);
  table.refuse_unread_keys();
  if (coil.wire) refuse_wire_that_does_not_fit(coil, table);
  return coil;
}

Magnet read_magnet(const std::string& name, const Table& table, MaterialSources& sources, PartWords& words) {
  const Value material = table.need(
      "material", "Name the grade, or write material = { remanence_T = 1.2, recoil_permeability = 1.05 }");
  const std::optional<Value> temperature = table.find("temperature_degC");
  NamedGrade grade = read_magnet_material(material, table.text(), sources, temperature);
  Shape shape = read_shape(table);
  const Value magnetised =
      table.need("magnetised", "Say which way it is magnetised, for example magnetised = \"+z\"");
  const Direction direction = read_direction(magnetised, table.text());
  table.refuse_unread_keys();
  if (direction.r != 0 && !has_bore(shape.outline))
    refuse(
        magnetised.place, "a magnetisation with a radial share needs a bore.",
        "On the axis it would point everywhere at once: draw the magnet as a tube, or use \"+z\" or \"-z\".");
  words.material = std::move(grade.as_toml);
  words.magnetised = as_toml(direction);
  words.grade = std::move(grade.file);
  const MagnetLaw law{grade.line.remanence_T * direction.r, grade.line.remanence_T * direction.z,
                      grade.line.recoil_permeability};
  return {name,
          std::move(shape.outline),
          law,
          std::move(grade.name),
          temperature ? number(*temperature) : 20,
          grade.line.knee_T};
}

}  // namespace coilpull
