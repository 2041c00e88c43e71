// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/result_folder.hpp"

#include "apps/device_file/bad_device.hpp"
#include "apps/device_file/table.hpp"
#include "apps/input/table_description.hpp"
#include "apps/output/sha256.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

void need_file(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error))
    throw BadDevice(
        file.string() +
        ": there is no such file. A report is made of what coilpull table of this version leaves: "
        "solve the device again, or name the device file instead of the folder.");
}

std::string content_of(const fs::path& file) {
  need_file(file);
  return text_of_file(file, "a file of results");
}

/// What the metadata tell of the making; each left as it is when they do not say.
void read_metadata(const fs::path& file, ResultFolder& folder) {
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return;
  const std::string text = content_of(file);
  folder.files.push_back(input_file(file.string(), sha256(text)));
  const TableDescription description = read_table_description(text);
  folder.made_by = description.made_by;
  folder.input = description.input;
  if (description.order > 0) folder.order = description.order;
}

}  // namespace

ResultFolder open_result_folder(const fs::path& folder) {
  ResultFolder all{
      folder, open_device_text(content_of(folder / "device.toml"), (folder / "device.toml").string(), folder),
      {},     content_of(folder / "summary.txt"),
      "",     ""};
  need_file(folder / "force_table.csv");
  all.table = read_force_table(read_csv_file(folder / "force_table.csv"));
  all.files = {input_file("summary.txt", sha256(all.summary)),
               input_file("force_table.csv", all.table.sha256)};
  read_metadata(folder / "force_table.csv-metadata.json", all);
  return all;
}

}  // namespace coilpull
