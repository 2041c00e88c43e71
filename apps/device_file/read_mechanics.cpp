// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/keys.hpp"
#include "apps/device_file/operation.hpp"

namespace coilpull {
namespace {

const char* const spring_example = "{ rate_N_per_mm = 0.1, free_at_mm = 0 }";
const char* const stops_example = "{ from_mm = 0, to_mm = 50, restitution = 0.3 }";

std::optional<Spring> read_spring(const Table& table) {
  const auto value = table.find("spring");
  if (!value) return std::nullopt;
  const std::string advice = std::string("For example ") + spring_example;
  const Table spring = inline_table(*value, table.text(), spring_example);
  spring.need("rate_N_per_mm", advice);
  const double rate = *find_between(spring, "rate_N_per_mm", 1e-9, 1e9,
                                    "A spring pushes back: its rate is positive, whichever way it pushes.");
  const double free_at = length_m(spring, "free_at", "The displacement at which it is slack. " + advice).si;
  spring.refuse_unread_keys();
  return Spring{rate / 0.001, free_at};
}

std::optional<EndStops> read_stops(const Table& table) {
  const auto value = table.find("stops");
  if (!value) return std::nullopt;
  const Table stops = inline_table(*value, table.text(), stops_example);
  const std::string advice = std::string("For example ") + stops_example;
  const double from = length_m(stops, "from", advice).si, to = length_m(stops, "to", advice).si;
  const double restitution =
      find_between(stops, "restitution", 0, 1, "Speed after the stop over speed before it.").value_or(0);
  stops.refuse_unread_keys();
  if (!(from < to)) refuse(value->place, "from has to be less than to.", "They are displacements.");
  return EndStops{from, to, restitution};
}

std::vector<double> read_hold_at(const Table& table) {
  const auto places = find_lengths_m(table, "hold_at");
  if (!places) return {};
  refuse_repeated(*places);
  return places->si;
}

}  // namespace

std::optional<Mechanics> read_mechanics(const Table& root) {
  const auto found = root.find("mechanics");
  if (!found) return std::nullopt;
  const Table table = section(*found, root.text(), "mass_g = 5");
  Mechanics mechanics;
  if (const auto gram = find_between(table, "mass_g", 1e-6, 1e9)) mechanics.mass = *gram / 1000;
  mechanics.dry_friction =
      find_between(table, "dry_friction_N", 0, 1e9, "It acts against either way.").value_or(0);
  mechanics.viscous_friction = find_between(table, "viscous_friction_N_s_per_m", 0, 1e9).value_or(0);
  mechanics.slope_deg =
      find_between(table, "slope_deg", -90, 90, "Of +z above the horizontal: 90 when +z points up.")
          .value_or(0);
  mechanics.load = find_between(table, "load_N", -1e9, 1e9).value_or(0);
  mechanics.spring = read_spring(table);
  mechanics.stops = read_stops(table);
  mechanics.hold_at = read_hold_at(table);
  table.refuse_unread_keys();
  if (mechanics.slope_deg != 0 && !mechanics.mass)
    refuse(table.find("slope_deg")->place, "a slope needs the weight that it bears.", "Give mass_g as well.");
  return mechanics;
}

}  // namespace coilpull
