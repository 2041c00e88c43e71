// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csvw_metadata.hpp"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "apps/output/findings.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/origin_json.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/sha256.hpp"
#include "apps/output/table_columns.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

using Json = nlohmann::ordered_json;

/// CSVW column names are URI template variables (RFC 6570, section 2.3): other bytes are percent-encoded.
std::string variable_name(const std::string& text) {
  static constexpr char hex[] = "0123456789ABCDEF";
  std::string name;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_';
    if (plain)
      name += c;
    else
      name += {'%', hex[byte >> 4], hex[byte & 15]};
  }
  return name;
}

/// The unit in the QUDT vocabulary, for programs; people read schema:unitText.
std::string qudt_name(const std::string& unit) {
  static const std::map<std::string, std::string> names = {
      {"mm", "MilliM"}, {"A", "A"},   {"N", "N"}, {"N/m", "N-PER-M"}, {"N/A", "N-PER-A"},
      {"H", "H"},       {"Wb", "WB"}, {"J", "J"}, {"T", "T"}};
  return "http://qudt.org/vocab/unit/" + names.at(unit);
}

Json datatype(const Column& column) {
  switch (column.kind) {
    case Cell::number:
      return "double";
    case Cell::count:
      return "nonNegativeInteger";
    case Cell::word:
      break;
  }
  return "string";
}

Json column_entry(const Column& column) {
  Json entry;
  entry["name"] = variable_name(column.name);
  entry["titles"] = column.name;
  entry["datatype"] = datatype(column);
  entry["required"] = true;
  entry["dc:description"] = column.meaning;
  if (!column.unit.empty()) {
    entry["schema:unitText"] = column.unit;
    entry["http://qudt.org/schema/qudt/unit"] = {{"@id", qudt_name(column.unit)}};
  }
  return entry;
}

Json rows_by_status(const ForceTable& table) {
  Json counts = Json::object();
  for (const Measurement& row : table.rows) {
    Json& count = counts[word_for(row.status)];
    count = count.is_null() ? 1 : count.get<int>() + 1;
  }
  return counts;
}

Json measured(const Measured& value) { return {{"value", value.value}, {"uncertainty", value.error}}; }

/// One audited row with every figure; what is not a number is null.
Json audited(const ForceTable& table, const AuditedRow& row) {
  const Measurement& of_table = table.rows[row.row];
  Json entry;
  entry["displacement_mm"] = in_mm(of_table.displacement);
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    entry["current_" + table.circuits[k] + "_A"] = as_written(of_table.currents_A[k]);
  entry["step_mm"] = 1e3 * row.step;
  entry["force_N"] = {{"table", of_table.force_N.value},
                      {"numerical_error", of_table.force_N.error},
                      {"energy", measured(row.force_N)},
                      {"mismatch_in_bars", row.force_bars}};
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    entry["flux_linkage_" + table.circuits[k] + "_Wb"] = {{"table", of_table.linkage_Wb[k].value},
                                                          {"numerical_error", of_table.linkage_Wb[k].error},
                                                          {"step_A", row.current_steps_A[k]},
                                                          {"energy", measured(row.linkage_Wb[k])},
                                                          {"mismatch_in_bars", row.linkage_bars[k]}};
  if (!row.why.empty()) entry["not_audited"] = row.why;
  return entry;
}

Json energy_audit(const ForceTable& table) {
  Json rows = Json::array();
  for (const AuditedRow& row : table.audit.rows) rows.push_back(audited(table, row));
  Json entry;
  entry["meaning"] =
      "force against the slope of the coenergy along the displacement, flux linkage against its slope along "
      "the current: five-point differences of fourth order on independent meshes; mismatch over "
      "hypot(numerical_error, uncertainty)";
  if (const AuditedRow* worst = worst_audited(table)) entry["worst_mismatch_in_bars"] = worst_bars(*worst);
  entry["rows"] = rows;
  if (!table.audit.left_out.empty()) entry["left_out"] = table.audit.left_out;
  return entry;
}

Json how_it_was_made(const ForceTable& table, const RunOrigin& run, const std::string& csv) {
  Json made = how_it_was_run(run);
  if (!csv.empty()) made["table_sha256"] = sha256(csv);
  made["tolerance"] = {{"asked", table.tolerance_asked},
                       {"reached", table.tolerance_reached},
                       {"meaning", "force_numerical_error_N over the largest |force_N| of the table"}};
  made["error_bars"] = {{"order_ratio", table.order_ratio},
                        {"safety_where_rough", table.safety_where_rough},
                        {"safety_where_smooth", table.safety_where_smooth},
                        {"mesh_scatter_N", table.mesh_scatter_N},
                        {"meaning",
                         "safety times the change of the force from one polynomial order to the "
                         "next, where the field is rough (corners, saturable steel) and where it "
                         "is smooth, and the scatter between independent "
                         "meshes, in quadrature; order_ratio: that change over the change one "
                         "order before"}};
  made["energy_audit"] = energy_audit(table);
  made["largest_force_N"] = table.peak_force_N;
  made["discretisation"] = {{"polynomial_order", table.order},
                            {"triangles_least", table.triangles_least},
                            {"triangles_most", table.triangles_most},
                            {"unknowns_most", table.unknowns_most}};
  made["mu0_H_per_m"] = mu0;
  made["rows"] = table.rows.size();
  made["rows_by_status"] = rows_by_status(table);
  made["limits"] = limits_of_the_table;
  return made;
}

}  // namespace

std::string csvw_metadata(const ForceTable& table, const RunOrigin& run, const std::string& csv_name,
                          const std::string& csv) {
  Json columns = Json::array();
  for (const Column& column : table_columns(table)) columns.push_back(column_entry(column));

  Json metadata;
  metadata["@context"] = {"http://www.w3.org/ns/csvw", {{"@language", "en"}}};
  metadata["url"] = csv_name;
  metadata["dc:title"] = run.devices.front().title;
  metadata["dc:description"] =
      "Axial force on the moving parts against displacement and current. " + std::string(limits_of_the_table);
  metadata["dc:creator"] = "coilpull " + program_version();
  metadata["dialect"] = {{"encoding", "utf-8"}, {"delimiter", ","}, {"quoteChar", "\""},
                         {"doubleQuote", true}, {"header", true},   {"lineTerminators", {"\r\n"}}};
  metadata["tableSchema"] = {{"columns", columns}};
  metadata["notes"] = Json::array({how_it_was_made(table, run, csv)});
  return description_text(metadata);
}

}  // namespace coilpull
