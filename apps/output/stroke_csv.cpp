// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "apps/output/csv_rows.hpp"
#include "apps/output/csvw_metadata.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/origin_json.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/sha256.hpp"
#include "apps/output/stroke_text.hpp"

namespace coilpull {
namespace {

using Json = nlohmann::ordered_json;

struct StrokeColumn {
  std::string name, unit, meaning;
};

std::vector<StrokeColumn> columns_of(const StrokePlan& plan) {
  std::vector<StrokeColumn> columns = {
      {"time_s", "s", "since the start"},
      {"displacement_mm", "mm", "of the moving parts along +z, of the first stage"},
      {"speed_m_per_s", "m/s", "along +z"},
      {"force_N", "N", "of all stages on the moving parts, friction, load and spring apart"},
      {"bank_V", "V", "of the capacitor without its series resistance; the supply's where there is none"}};
  for (std::size_t k = 1; k <= plan.setup.stages.size(); ++k) {
    const std::string n = std::to_string(k);
    columns.push_back({"current_" + n + "_A", "A", "of stage " + n});
    columns.push_back({"voltage_" + n + "_V", "V", "across the winding of stage " + n});
    columns.push_back({"winding_" + n + "_degC", "degC", "temperature of the winding of stage " + n});
  }
  return columns;
}

Json energy_of(const StrokeEnergy& e) {
  return {{"delivered_J", e.delivered}, {"heat_J", e.heat},           {"magnetic_J", e.stored},
          {"kinetic_J", e.kinetic},     {"friction_J", e.friction},   {"spring_J", e.spring},
          {"impacts_J", e.impacts},     {"against_load_J", e.lifted}, {"gap_J", e.gap()}};
}

}  // namespace

std::string stroke_csv(const StrokePlan& plan, const SwitchedRun& run) {
  std::string header;
  for (const StrokeColumn& column : columns_of(plan)) header += (header.empty() ? "" : ",") + column.name;
  std::vector<std::vector<double>> rows;
  for (const StrokePoint& p : run.points) {
    std::vector<double> row = {p.state.time_s, in_mm(p.state.displacement), p.state.speed_m_per_s, p.force_N,
                               p.state.bank_V};
    for (std::size_t k = 0; k < p.windings.size(); ++k)
      row.insert(row.end(), {p.windings[k].current_A, p.windings[k].voltage_V, p.state.windings[k].degC});
    rows.push_back(row);
  }
  return csv_rows(header, rows);
}

std::string stroke_metadata(const StrokePlan& plan, const SwitchedRun& run, const StrokeFigures& figures,
                            const RunOrigin& origin, const std::string& csv_name, const std::string& csv) {
  Json columns = Json::array();
  for (const StrokeColumn& column : columns_of(plan))
    columns.push_back({{"name", column.name},
                       {"titles", column.name},
                       {"datatype", "double"},
                       {"required", true},
                       {"dc:description", column.meaning},
                       {"schema:unitText", column.unit}});
  Json events = Json::array();
  for (const StrokeEventAt& e : run.events)
    events.push_back({{"time_s", e.time_s}, {"event", word_for(e.event)}, {"stage", e.stage + 1}});
  Json metadata;
  metadata["@context"] = {"http://www.w3.org/ns/csvw", {{"@language", "en"}}};
  metadata["url"] = csv_name;
  metadata["dc:title"] = origin.devices.front().title;
  metadata["dc:description"] = "A stroke in time. " + std::string(limits_of_the_table);
  metadata["dc:creator"] = "coilpull " + program_version();
  metadata["tableSchema"] = {{"columns", columns}};
  Json made = how_it_was_run(origin);
  made["table_sha256"] = sha256(csv);
  made["stages"] = plan.setup.stages.size();
  made["pitch_mm"] = in_mm(plan.pitch);
  made["assumed"] = plan.assumed;
  made["end_speed_m_per_s"] = {
      {"value", figures.speed_m_per_s}, {"low", figures.low_m_per_s}, {"high", figures.high_m_per_s}};
  made["energy"] = energy_of(run.energy);
  made["events"] = events;
  metadata["notes"] = Json::array({made});
  return description_text(metadata);
}

}  // namespace coilpull
