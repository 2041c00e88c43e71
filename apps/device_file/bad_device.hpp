// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

namespace coilpull {

/// The device file cannot be used. what(): place, fact, what is allowed; then, indented, what to do.
struct BadDevice : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A place in the device file, as a message names it.
struct Place {
  std::string file;        ///< as the person named it
  int line = 0;            ///< from 1; 0: the file as a whole
  std::string table = {};  ///< "coil.drive"; empty: above the first table
  std::string key = {};    ///< "wire.diameter_mm"; empty: the table as a whole
  std::string value = {};  ///< as it stands in the file; empty: the key has none to show
};

/// "pusher.toml:14: [coil.drive] turns = -180"
std::string describe(const Place& place);

/// @throws BadDevice  "<place>: <fact>", and on a second, indented line the advice, when there is one
[[noreturn]] void refuse(const Place& place, const std::string& fact, const std::string& advice = "");

}  // namespace coilpull
