// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/result_folder.hpp"

#include <initializer_list>
#include <nlohmann/json.hpp>

#include "apps/device_file/bad_device.hpp"
#include "apps/device_file/table.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

std::string content_of(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error))
    throw BadDevice(
        file.string() +
        ": there is no such file. A report is made of what coilpull table of this version leaves: "
        "solve the device again, or name the device file instead of the folder.");
  return text_of_file(file, "a file of results");
}

/// What stands at the end of the path; null when that is not there. Never throws: the file may be anybody's.
nlohmann::json at(const nlohmann::json& json, std::initializer_list<const char*> path) {
  const nlohmann::json* found = &json;
  for (const char* key : path) {
    if (!found->is_object() || !found->contains(key)) return nullptr;
    found = &(*found)[key];
  }
  return *found;
}

std::string text_at(const nlohmann::json& json, std::initializer_list<const char*> path) {
  const nlohmann::json found = at(json, path);
  return found.is_string() ? found.get<std::string>() : "";
}

/// What the metadata tell of the making; each left as it is when they do not say.
void read_metadata(const fs::path& file, ResultFolder& folder) {
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return;
  const auto json = nlohmann::json::parse(content_of(file), nullptr, false);
  const nlohmann::json notes = at(json, {"notes"});
  if (!notes.is_array() || notes.empty()) return;
  const auto& made = notes.front();
  folder.made_by = text_at(made, {"program"});
  const std::string input = text_at(made, {"input", "file"});
  if (!input.empty()) folder.input = input + ", sha256 " + text_at(made, {"input", "sha256"});
  const nlohmann::json order = at(made, {"discretisation", "polynomial_order"});
  for (const int usual : {3, 4, 5, 6})
    if (order == usual) folder.order = usual;
}

}  // namespace

ResultFolder open_result_folder(const fs::path& folder) {
  ResultFolder all{
      folder, open_device_text(content_of(folder / "device.toml"), (folder / "device.toml").string(), folder),
      {},     content_of(folder / "summary.txt"),
      "",     ""};
  content_of(folder / "force_table.csv");
  all.table = read_force_table(read_csv_file(folder / "force_table.csv"));
  read_metadata(folder / "force_table.csv-metadata.json", all);
  return all;
}

}  // namespace coilpull
