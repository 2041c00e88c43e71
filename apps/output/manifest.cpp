// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/manifest.hpp"

#include <nlohmann/json.hpp>

#include "apps/output/origin_json.hpp"
#include "apps/output/program_version.hpp"

namespace coilpull {
namespace {

using Json = nlohmann::ordered_json;

bool is_csv(const std::string& name) {
  return name.size() > 4 && name.compare(name.size() - 4, 4, ".csv") == 0;
}

}  // namespace

std::string manifest(const RunOrigin& run, const std::vector<ResultFile>& results) {
  Json tables = Json::array(), files = Json::array();
  for (const ResultFile& result : results) {
    if (is_csv(result.name)) tables.emplace_back()["url"] = result.name;
    files.push_back({{"file", result.name}, {"sha256", result.sha256}});
  }
  Json metadata;
  if (!tables.empty()) metadata["@context"] = {"http://www.w3.org/ns/csvw", {{"@language", "en"}}};
  if (!run.devices.empty()) metadata["dc:title"] = run.devices.front().title;
  metadata["dc:creator"] = "coilpull " + program_version();
  if (!tables.empty()) metadata["tables"] = tables;
  Json made = how_it_was_run(run);
  made["results"] = files;
  metadata["notes"] = Json::array({made});
  return description_text(metadata);
}

}  // namespace coilpull
