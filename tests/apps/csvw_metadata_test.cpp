// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csvw_metadata.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "apps/output/csv_table.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/sha256.hpp"
#include "tests/apps/hand_made_table.hpp"

using namespace coilpull;
using Json = nlohmann::json;

namespace {
const RunOrigin origin{{"table", "pusher.toml"}, {{"Tube pusher", "pusher.toml", "abc"}}};
}

TEST_CASE("SHA-256 gives the digests of the standard") {
  // FIPS 180-4 example values published by NIST for "abc" and the empty message.
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("the metadata describes exactly the columns of the file, each with its unit") {
  const ForceTable table = plunger_table();
  const Json metadata = Json::parse(csvw_metadata(table, origin, "force_table.csv"));
  std::string header;
  for (const Json& column : metadata["tableSchema"]["columns"]) {
    const auto title = column["titles"].get<std::string>();
    header += (header.empty() ? "" : ",") + title;
    CHECK(!column["dc:description"].get<std::string>().empty());
    const bool is_number = column["datatype"] == "double";
    CHECK(column.contains("schema:unitText") == is_number);
    if (is_number) {
      const auto unit = "_" + column["schema:unitText"].get<std::string>();
      CHECK_MESSAGE(title.substr(title.size() - unit.size()) == unit, title, " is said to be in ", unit);
    }
  }
  const std::string csv = csv_text(table);
  CHECK(header == csv.substr(0, csv.find("\r\n")));
  CHECK(metadata["url"] == "force_table.csv");
  CHECK(metadata["@context"][0] == "http://www.w3.org/ns/csvw");
}

TEST_CASE("the metadata tells what the table was made from, with what and how well") {
  const ForceTable table = plunger_table_with_a_lost_row();
  const Json made = Json::parse(csvw_metadata(table, origin, "force_table.csv"))["notes"][0];
  CHECK(made["program"] == "coilpull " + program_version());
  CHECK(made["input"]["file"] == "pusher.toml");
  CHECK(made["input"]["sha256"] == sha256("abc"));
  CHECK(made["tolerance"]["asked"].get<double>() == table.tolerance_asked);
  CHECK(made["tolerance"]["reached"].get<double>() == table.tolerance_reached);
  CHECK(made["discretisation"]["polynomial_order"] == 3);
  CHECK(made["discretisation"]["triangles_most"] == 320);
  CHECK(made["rows_by_status"]["ok"] == 14);
  CHECK(made["rows_by_status"]["not_converged"] == 1);
  for (const char* limit : {"On axis", "statics", "numerical only"})
    CHECK(made["limits"].get<std::string>().find(limit) != std::string::npos);
}

TEST_CASE("the metadata keeps what made the bars, and every figure of the energy audit") {
  const ForceTable table = audited_plunger_table();
  const Json made = Json::parse(csvw_metadata(table, origin, "force_table.csv"))["notes"][0];
  CHECK(made["error_bars"]["order_ratio"] == 0.25);
  CHECK(made["error_bars"]["safety_where_rough"] == 1.5);
  CHECK(made["error_bars"]["safety_where_smooth"] == 0.3);
  CHECK(made["error_bars"]["mesh_scatter_N"] == 1e-3);
  CHECK(made["energy_audit"]["worst_mismatch_in_bars"] == 3.0);
  REQUIRE(made["energy_audit"]["rows"].size() == 2);
  const Json row = made["energy_audit"]["rows"][1];
  CHECK(row["displacement_mm"] == 4.0);
  CHECK(row["current_drive_A"] == -1.0);
  CHECK(row["step_mm"] == 0.1);
  CHECK(row["force_N"]["table"] == -7.0);
  CHECK(row["force_N"]["numerical_error"] == 0.01);
  CHECK(row["force_N"]["energy"]["value"].get<double>() == table.audit.rows[1].force_N.value);
  CHECK(row["force_N"]["energy"]["uncertainty"] == 1e-5);
  CHECK(row["force_N"]["mismatch_in_bars"] == 3.0);
  CHECK(row["flux_linkage_drive_Wb"]["step_A"] == 0.02);
  CHECK(row["flux_linkage_drive_Wb"]["mismatch_in_bars"] == 3.0);
}

TEST_CASE("the metadata of a table that was not audited says so, and gives null for what is no number") {
  ForceTable table = audited_plunger_table();
  table.audit.rows[0].force_bars = std::numeric_limits<double>::quiet_NaN();
  table.audit.rows[0].why = "force: stopped";
  const Json row =
      Json::parse(csvw_metadata(table, origin, "force_table.csv"))["notes"][0]["energy_audit"]["rows"][0];
  CHECK(row["force_N"]["mismatch_in_bars"].is_null());
  CHECK(row["not_audited"] == "force: stopped");
  const Json plain = Json::parse(csvw_metadata(plunger_table(), origin, "force_table.csv"))["notes"][0];
  CHECK(plain["energy_audit"]["rows"].empty());
  CHECK(plain["energy_audit"]["left_out"] == "not asked for");
}

TEST_CASE("a column name that CSVW does not allow is percent-encoded, its title is not") {
  ForceTable table = plunger_table();
  table.cores = {"inner-sleeve"};
  const Json columns = Json::parse(csvw_metadata(table, origin, "force_table.csv"))["tableSchema"]["columns"];
  CHECK(columns[8]["name"] == "B_p99_inner%2Dsleeve_T");
  CHECK(columns[8]["titles"] == "B_p99_inner-sleeve_T");
}
