// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/manifest.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "apps/commands/write_manifest.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sha256.hpp"
#include "tests/apps/scratch_folder.hpp"

using namespace coilpull;
using Json = nlohmann::json;

namespace {

const RunOrigin run{{"judge", "table.csv", "mine \xFF.csv"},
                    {{"Tube pusher", "pusher.toml", "abc", "title = \"Tube pusher\"\n"}},
                    {{"table.csv", "11"}, {"mine \xFF.csv", "22"}}};

}  // namespace

TEST_CASE("a manifest names the version, the command, every input and every result by its hash") {
  const Json all = Json::parse(manifest(run, {{"a.csv", "33"}, {"a.png", "44"}, {"b.csv", "55"}}));
  CHECK(all["dc:title"] == "Tube pusher");
  CHECK(all["tables"] == Json::parse(R"([{"url": "a.csv"}, {"url": "b.csv"}])"));
  const Json made = all["notes"][0];
  CHECK(made["program"] == "coilpull " + program_version());
  CHECK(made["command"] ==
        Json({"judge", "table.csv", "mine \xEF\xBF\xBD.csv"}));  // U+FFFD for what is no UTF-8
  CHECK(made["libraries"].contains("Gmsh"));
  CHECK(made["input"]["sha256"] == sha256("abc"));
  CHECK(made["input"]["canonical_text"] == "title = \"Tube pusher\"\n");
  CHECK(made["further_inputs"].size() == 2);
  CHECK(made["further_inputs"][1]["sha256"] == "22");
  CHECK(made["results"][1] == Json::parse(R"({"file": "a.png", "sha256": "44"})"));
  CHECK(made["results"].size() == 3);
}

TEST_CASE("a manifest of no table is no description of tables") {
  const Json all =
      Json::parse(manifest({{"material", "import"}, {}, {{"bar.csv", "1"}}}, {{"bar.toml", "2"}}));
  CHECK(!all.contains("tables"));
  CHECK(!all.contains("@context"));
  CHECK(all["notes"][0]["input"]["file"] == "bar.csv");
  CHECK(!all["notes"][0].contains("further_inputs"));
}

TEST_CASE("a manifest is written beside the results, of which one that has gone is told") {
  const ScratchFolder scratch;
  std::vector<std::filesystem::path> results = {scratch.write("a.csv", "abc")};
  write_manifest(scratch.folder, "a.csv", run, results);
  CHECK(results.back() == scratch.folder / "a.csv-metadata.json");
  CHECK(std::filesystem::exists(results.back()));
  std::vector<std::filesystem::path> gone = {scratch.folder / "gone.csv"};
  CHECK_THROWS_AS(write_manifest(scratch.folder, "gone.csv", run, gone), CannotWrite);
}
