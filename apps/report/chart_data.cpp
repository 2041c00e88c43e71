// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/chart_data.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "apps/output/number_text.hpp"
#include "apps/output/table_pictures.hpp"

namespace coilpull {
namespace {

using Json = nlohmann::json;

/// Six digits: more than a screen shows, less than a page should carry.
Json number(double value) {
  return std::isfinite(value) ? Json::parse(rounded(value, 6), nullptr, false) : Json(nullptr);
}

}  // namespace

std::string label_of(const ForceTableFile& table, std::size_t set) {
  std::string words;
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    words += (k == 0 ? "" : ", ") + (table.circuits.size() > 1 ? table.circuits[k] + " " : "") +
             shortest(table.currents_A[set][k]) + " A";
  return words.empty() ? "no circuit" : words;
}

std::vector<std::size_t> curves_shown(const ForceTableFile& table) {
  return readable_subset(table.currents_A.size());
}

std::string chart_data(const ForceTableFile& table) {
  Json data;
  data["circuits"] = table.circuits;
  data["spread"] = table.has_spread;
  for (const double metres : table.displacements) data["x"].push_back(number(1e3 * metres));
  data["shown"] = curves_shown(table);
  data["sets"] = Json::array();
  for (std::size_t set = 0; set < table.currents_A.size(); ++set) {
    Json one;
    one["label"] = label_of(table, set);
    for (std::size_t d = 0; d < table.displacements.size(); ++d) {
      const TabledForce& row = table.at(d, set);
      one["force"].push_back(number(row.force_N));
      one["bar"].push_back(number(row.bar_N));
      if (table.has_spread) {
        one["low"].push_back(number(row.low_N));
        one["high"].push_back(number(row.high_N));
      }
      for (std::size_t k = 0; k < table.circuits.size(); ++k)
        one["linkage"][k].push_back(number(k < row.linkage_Wb.size() ? 1e3 * row.linkage_Wb[k] : NAN));
    }
    data["sets"].push_back(one);
  }
  std::string text = data.dump(-1, ' ', false, Json::error_handler_t::replace);
  for (std::size_t at = 0; (at = text.find('<', at)) != std::string::npos;) text.replace(at, 1, "\\u003c");
  return text;
}

}  // namespace coilpull
