// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/python/device_text.hpp"

#include <algorithm>

#include "apps/device_file/exact_text.hpp"

namespace coilpull {
namespace {

namespace py = pybind11;

std::string key_of(const py::handle& key, const std::string& path) {
  if (!py::isinstance<py::str>(key))
    throw py::type_error((path.empty() ? std::string("device") : path) + ": a key is " +
                         py::repr(key).cast<std::string>() + "; keys are texts, as in a device file.");
  return key.cast<std::string>();
}

std::string inside(const std::string& path, const std::string& key) {
  return path.empty() ? key : path + "." + key;
}

std::string value_text(const py::handle& value, const std::string& path);

std::string list_text(const py::sequence& list, const std::string& path) {
  std::string text = "[";
  for (const py::handle item : list) text += (text.size() > 1 ? ", " : "") + value_text(item, path);
  return text + "]";
}

std::string inline_table(const py::dict& table, const std::string& path) {
  std::string text = "{";
  for (const auto& [key, value] : table) {
    const std::string name = key_of(key, path);
    text += (text.size() > 1 ? ", " : " ") + toml_text(name) + " = " + value_text(value, inside(path, name));
  }
  return text + " }";
}

std::string value_text(const py::handle& value, const std::string& path) {
  if (py::isinstance<py::bool_>(value)) return value.cast<bool>() ? "true" : "false";
  if (py::isinstance<py::str>(value)) return toml_text(value.cast<std::string>());
  if (py::isinstance<py::int_>(value)) return py::str(value).cast<std::string>();
  if (py::isinstance<py::float_>(value))  // repr reads back to the last bit; nan and inf are TOML words
    return py::repr(py::float_(value.cast<double>())).cast<std::string>();
  if (py::isinstance<py::dict>(value)) return inline_table(value.cast<py::dict>(), path);
  if (py::isinstance<py::list>(value) || py::isinstance<py::tuple>(value))
    return list_text(value.cast<py::sequence>(), path);
  if (py::hasattr(value, "tolist")) return value_text(value.attr("tolist")(), path);  // NumPy
  throw py::type_error(path + " = " + py::repr(value).cast<std::string>() +
                       ": a device has texts, numbers, booleans, lists and dictionaries.");
}

bool all_tables(const py::dict& table) {
  return !table.empty() && std::all_of(table.begin(), table.end(), [](const auto& item) {
    return py::isinstance<py::dict>(item.second);
  });
}

/// [head] and its keys, one a line, so that a message can name the line.
std::string table_text(const std::string& head, const py::dict& table, const std::string& path) {
  std::string text = "\n[" + head + "]\n";
  for (const auto& [key, value] : table) {
    const std::string name = key_of(key, path);
    text += toml_text(name) + " = " + value_text(value, inside(path, name)) + "\n";
  }
  return text;
}

}  // namespace

std::string device_text(const py::dict& device) {
  std::string above, tables;
  for (const auto& [key, value] : device) {
    const std::string name = key_of(key, "");
    if (!py::isinstance<py::dict>(value)) {
      above += toml_text(name) + " = " + value_text(value, name) + "\n";
      continue;
    }
    const auto table = value.cast<py::dict>();
    if (!all_tables(table)) {
      tables += table_text(toml_text(name), table, name);
      continue;
    }
    for (const auto& [part, content] : table) {  // core, coil, magnet, sensor: a table a part
      const std::string part_name = key_of(part, name);
      tables += table_text(toml_text(name) + "." + toml_text(part_name), content.cast<py::dict>(),
                           inside(name, part_name));
    }
  }
  return above + tables;
}

}  // namespace coilpull
