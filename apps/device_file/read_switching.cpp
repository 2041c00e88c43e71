// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "apps/device_file/keys.hpp"
#include "apps/device_file/operation.hpp"
#include "apps/device_file/read_direction.hpp"

namespace coilpull {
namespace {

SwitchingSensor::Kind read_kind(const Table& table) {
  const Value value = table.need("kind", "Allowed: \"unipolar\" and \"latching\"");
  const std::string word = text(value);
  if (word == "unipolar") return SwitchingSensor::Kind::unipolar;
  if (word == "latching") return SwitchingSensor::Kind::latching;
  refuse(value.place, "there is no such kind of sensor.",
         "Allowed: \"unipolar\", which lets go as the field falls, and \"latching\", which waits for it to "
         "reverse.");
}

Threshold read_operate(const Table& table) {
  const auto range = find_flux_density_range_T(table, "operate");
  if (!range)
    table.refuse_missing({"operate_mT", "operate_T", "operate_G"},
                         "The field that switches it on, for example { min = 2, typical = 3, max = 4 }");
  if (!(range->least > 0))
    refuse(range->value.place, "has to be greater than 0.",
           "It counts along direction: turn that round for a sensor that wants the other pole.");
  return {range->least, range->typical, range->most};
}

Threshold read_release(const Table& table, const SwitchingSensor& sensor) {
  const bool latching = sensor.kind == SwitchingSensor::Kind::latching;
  const auto range = find_flux_density_range_T(table, "release");
  if (!range && latching) return {-sensor.operate.most, -sensor.operate.typical, -sensor.operate.least};
  if (!range)
    table.refuse_missing({"release_mT", "release_T", "release_G"},
                         "The field that switches it off, for example { min = 1, typical = 2, max = 3 }");
  if (latching && !(range->most < 0))
    refuse(range->value.place, "a latching sensor is switched off by a reversed field.",
           "For example { min = -4, typical = -3, max = -2 }.");
  if (!latching && !(range->least > 0))
    refuse(range->value.place, "a unipolar sensor is switched off above 0.",
           "One that needs a reversed field is kind = \"latching\".");
  if (!(range->typical < sensor.operate.typical && range->least < sensor.operate.least &&
        range->most < sensor.operate.most))
    refuse(range->value.place, "each of them has to lie below that of operate.",
           "It is off again only when the field has fallen.");
  return {range->least, range->typical, range->most};
}

}  // namespace

std::optional<SwitchingSensor> read_switching(const Table& table) {
  const auto direction = table.find("direction");
  bool stated = direction.has_value();
  for (const char* key :
       {"kind", "operate_T", "operate_mT", "operate_G", "release_T", "release_mT", "release_G",
        "place_tolerance_mm", "place_tolerance_m", "place_tolerance_in", "delay_us"})
    stated |= table.find(key).has_value();
  if (!stated) return std::nullopt;
  const Direction along = direction ? read_direction(*direction, table.text()) : Direction{0, 1};
  SwitchingSensor sensor{along.r, along.z, along.angle_deg, read_kind(table), {}, {}};
  sensor.operate = read_operate(table);
  sensor.release = read_release(table, sensor);
  if (const auto tolerance = find_length_m(table, "place_tolerance")) {
    if (tolerance->si < 0) refuse(tolerance->value.place, "has to be 0 or more.", "It is half of the range.");
    sensor.place_tolerance = tolerance->si;
  }
  if (const auto delay = find_between(table, "delay_us", 0, 1e9)) sensor.delay = *delay / 1e6;
  return sensor;
}

}  // namespace coilpull
