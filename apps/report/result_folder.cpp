// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/result_folder.hpp"

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "apps/device_file/bad_device.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

std::string content_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in)
    throw BadDevice(
        file.string() +
        ": there is no such file. A report is made of what coilpull table of this version leaves: "
        "solve the device again, or name the device file instead of the folder.");
  std::ostringstream content;
  content << in.rdbuf();
  return content.str();
}

/// What the metadata tell of the making; each left as it is when they do not say.
void read_metadata(const fs::path& file, ResultFolder& folder) {
  std::ifstream in(file);
  const auto json = nlohmann::json::parse(in, nullptr, false);
  if (!json.is_object() || !json.contains("notes") || !json["notes"].is_array() || json["notes"].empty())
    return;
  const auto& made = json["notes"].front();
  folder.made_by = made.value("program", "");
  if (made.contains("input"))
    folder.input = made["input"].value("file", "") + ", sha256 " + made["input"].value("sha256", "");
  if (made.contains("discretisation")) folder.order = made["discretisation"].value("polynomial_order", 4);
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
