// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <pybind11/pybind11.h>

#include <string>

namespace coilpull {

/// A dictionary with the tables and keys of a device file as its TOML text, so that one reader checks both.
/// Texts, numbers, booleans, lists, tuples and NumPy arrays or numbers are taken.
/// @throws pybind11::type_error  anything else, with the path of the key
std::string device_text(const pybind11::dict& device);

}  // namespace coilpull
