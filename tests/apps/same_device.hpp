// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <doctest/doctest.h>

#include <vector>

#include "solver/device/device.hpp"

namespace coilpull {

// Two devices are the same to the last bit.

inline void check_same(const Outline& a, const Outline& b) {
  REQUIRE(a.edges.size() == b.edges.size());
  for (std::size_t i = 0; i < a.edges.size(); ++i) {
    INFO("edge " << i);
    CHECK(a.edges[i].from == b.edges[i].from);
    CHECK(a.edges[i].to == b.edges[i].to);
    REQUIRE(a.edges[i].centre.has_value() == b.edges[i].centre.has_value());
    if (a.edges[i].centre) CHECK(*a.edges[i].centre == *b.edges[i].centre);
  }
}

inline void check_same(const Core& a, const Core& b) {
  INFO("core " << a.name);
  CHECK(a.name == b.name);
  CHECK(a.material == b.material);
  check_same(a.outline, b.outline);
  CHECK(a.law.index() == b.law.index());
  for (const double b_T : {0.01, 0.5, 1.1, 1.7, 2.05, 2.6}) {
    CHECK(evaluate(a.law, b_T).h == evaluate(b.law, b_T).h);
    CHECK(evaluate(a.law, b_T).energy_density == evaluate(b.law, b_T).energy_density);
  }
}

inline void check_same(const Bobbin& a, const Bobbin& b) {
  check_same(a.space, b.space);
  CHECK(a.wall == b.wall);
  CHECK(a.flange == b.flange);
  CHECK(a.clearance == b.clearance);
  CHECK(a.layer_film == b.layer_film);
}

inline void check_same(const Coil& a, const Coil& b) {
  INFO("coil " << a.name);
  CHECK(a.name == b.name);
  check_same(a.outline, b.outline);
  CHECK(a.turns == b.turns);
  CHECK(a.circuit == b.circuit);
  CHECK(a.sense == b.sense);
  CHECK(a.packing == b.packing);
  CHECK(a.temperature_degC == b.temperature_degC);
  REQUIRE(a.bobbin.has_value() == b.bobbin.has_value());
  if (a.bobbin) check_same(*a.bobbin, *b.bobbin);
  REQUIRE(a.wire.has_value() == b.wire.has_value());
  if (!a.wire) return;
  CHECK(a.wire->metal == b.wire->metal);
  CHECK(a.wire->bare_diameter == b.wire->bare_diameter);
  CHECK(a.wire->overall_diameter == b.wire->overall_diameter);
}

inline void check_same(const Magnet& a, const Magnet& b) {
  INFO("magnet " << a.name);
  CHECK(a.name == b.name);
  CHECK(a.material == b.material);
  check_same(a.outline, b.outline);
  CHECK(a.law.remanence_r_T == b.law.remanence_r_T);
  CHECK(a.law.remanence_z_T == b.law.remanence_z_T);
  CHECK(a.law.recoil_permeability == b.law.recoil_permeability);
  CHECK(a.temperature_degC == b.temperature_degC);
  CHECK(a.knee_T == b.knee_T);
}

inline void check_same(const Sensor& a, const Sensor& b) {
  INFO("sensor " << a.name);
  CHECK(a.name == b.name);
  CHECK(a.at == b.at);
  CHECK(a.face_radius == b.face_radius);
  CHECK(a.moves == b.moves);
}

template <class Part>
void check_all_same(const std::vector<Part>& a, const std::vector<Part>& b) {
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) check_same(a[i], b[i]);
}

/// To the last bit, all of it.
inline void check_same(const Device& a, const Device& b) {
  CHECK(a.title == b.title);
  check_all_same(a.cores, b.cores);
  check_all_same(a.coils, b.coils);
  check_all_same(a.magnets, b.magnets);
  check_all_same(a.sensors, b.sensors);
  CHECK(a.moving == b.moving);
  CHECK(a.displacements == b.displacements);
  CHECK(a.circuits == b.circuits);
  CHECK(a.currents_A == b.currents_A);
  CHECK(a.background_bz_T == b.background_bz_T);
  CHECK(a.tolerance == b.tolerance);
}

}  // namespace coilpull
