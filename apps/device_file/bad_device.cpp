// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/bad_device.hpp"

namespace coilpull {

std::string describe(const Place& place) {
  std::string words = place.file;
  if (place.line > 0) words += ":" + std::to_string(place.line);
  std::string subject = place.table.empty() ? "" : "[" + place.table + "]";
  if (!place.key.empty()) subject += (subject.empty() ? "" : " ") + place.key;
  if (!place.value.empty()) subject += " = " + place.value;
  return subject.empty() ? words : words + ": " + subject;
}

void refuse(const Place& place, const std::string& fact, const std::string& advice) {
  throw BadDevice(describe(place) + ": " + fact + (advice.empty() ? "" : "\n  " + advice));
}

}  // namespace coilpull
