// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/key_paths.hpp"

#include <algorithm>
#include <utility>

#include "apps/device_file/nearest_name.hpp"

namespace coilpull {
namespace {

/// Values below a table; keys with dots and headers with dots come to the same path.
void add_key_paths(const toml::table& node, const SourceText& text, const Place& place,
                   std::vector<KeyPath>& keys) {
  for (const auto& [key, value] : Table(node, text, place).in_file_order()) {
    const toml::table* inner = value.node->as_table();
    if (inner != nullptr && !inner->is_inline())
      add_key_paths(*inner, text, value.place, keys);
    else
      keys.push_back({value.place.key, value});
  }
}

}  // namespace

std::vector<KeyPath> KeyPaths::of(const Value& table, const std::vector<std::string>& own, Again again) {
  Place place = table.place;
  place.table = std::exchange(place.key, "");
  place.value.clear();
  const toml::table* node = table.node->as_table();
  if (node == nullptr) refuse(table.place, "needs a table.", "Write the header [" + place.table + "].");
  std::vector<KeyPath> keys, paths;
  add_key_paths(*node, root_.text(), place, keys);
  for (const KeyPath& key : keys) {
    if (std::find(own.begin(), own.end(), key.path) != own.end()) continue;
    need_in_device(key.path, key.value.place, own);
    enter(key, again);
    paths.push_back(key);
  }
  return paths;
}

void KeyPaths::need_in_device(const std::string& path, const Place& place,
                              std::vector<std::string> also) const {
  if (device_.has(path)) return;
  for (const std::string& known : device_.paths()) also.push_back(known);
  const auto meant = nearest_name(path, also);
  refuse(place, device_.file_name() + " has no such key" + (meant ? "; did you mean " + *meant + "?" : "."),
         "What varies stands in the device file first, spelt as here: " + listed(also) + ".");
}

void KeyPaths::enter(const KeyPath& key, Again again) {
  for (const KeyPath& other : entered_) {
    const std::string &a = key.path, &b = other.path;
    const bool nested = a.rfind(b + ".", 0) == 0 || b.rfind(a + ".", 0) == 0;
    if ((a == b && again == Again::no) || nested)
      refuse(key.value.place,
             "line " + std::to_string(other.value.place.line) + " says it for " + b + " already.",
             "Each key of the device file is set, varied or following in one place only.");
  }
  entered_.push_back(key);
}

}  // namespace coilpull
