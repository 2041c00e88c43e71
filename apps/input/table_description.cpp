// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/table_description.hpp"

#include <initializer_list>
#include <nlohmann/json.hpp>

namespace coilpull {
namespace {

using Json = nlohmann::json;

/// What stands at the end of the path; null when that is not there.
const Json* at(const Json& json, std::initializer_list<const char*> path) {
  const Json* found = &json;
  for (const char* key : path) {
    if (!found->is_object() || !found->contains(key)) return nullptr;
    found = &(*found)[key];
  }
  return found;
}

std::string text_at(const Json& json, std::initializer_list<const char*> path) {
  const Json* found = at(json, path);
  return found != nullptr && found->is_string() ? found->get<std::string>() : "";
}

}  // namespace

TableDescription read_table_description(std::string_view json) {
  constexpr std::size_t longest_title = 800;
  TableDescription description;
  const Json all = Json::parse(json, nullptr, false);
  description.title = text_at(all, {"dc:title"});
  if (description.title.size() > longest_title) description.title.clear();
  const Json* notes = at(all, {"notes"});
  if (notes == nullptr || !notes->is_array() || notes->empty()) return description;
  const Json& made = notes->front();
  description.made_by = text_at(made, {"program"});
  const std::string input = text_at(made, {"input", "file"});
  if (!input.empty()) description.input = input + ", sha256 " + text_at(made, {"input", "sha256"});
  if (const Json* order = at(made, {"discretisation", "polynomial_order"}))
    for (const int usual : {3, 4, 5, 6})
      if (*order == usual) description.order = usual;
  return description;
}

}  // namespace coilpull
