// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/audit_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/findings.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"

namespace coilpull {
namespace {

std::string counted(std::size_t rows) { return std::to_string(rows) + (rows == 1 ? " row" : " rows"); }

/// Empty when table and energy agree.
std::string warning(const ForceTable& table, const AuditedRow& row, const std::string& what, double bars,
                    const Measured& of_table, const Measured& of_energy, const std::string& unit) {
  if (!(bars > 1)) return "";
  return "warning: " + what + " " + where(table, table.rows[row.row]) + " is " + with_bar(of_table) + " " +
         unit + ", but the energy says " + with_bar(of_energy) + " " + unit + ": " + rounded(bars, 3) +
         " bars apart. Trust it no closer than that, and try a smaller tolerance.\n";
}

}  // namespace

std::string audit_line(const ForceTable& table) {
  const AuditedRow* worst = worst_audited(table);
  const std::string& left_out = table.audit.left_out;
  const auto audited = static_cast<std::size_t>(
      std::count_if(table.audit.rows.begin(), table.audit.rows.end(),
                    [](const AuditedRow& row) { return !std::isnan(worst_bars(row)); }));
  std::string text = "Energy audit: ";
  text +=
      worst ? "worst mismatch " + rounded(worst_bars(*worst), 3) + " bars over " + counted(audited) : "none";
  if (const std::size_t unsure = unsure_audits(table))
    text += ", in " + std::to_string(unsure) + " of which the audit is less sure than the bar";
  if (!left_out.empty()) text += std::string(worst ? "; left out: " : ": ") + left_out;
  text += ".\n";
  for (const AuditedRow& row : table.audit.rows)
    if (!row.why.empty())
      text += "  not audited " + where(table, table.rows[row.row]) + ": " + row.why + "\n";
  return text;
}

std::string audit_warnings(const ForceTable& table) {
  std::string text;
  for (const AuditedRow* row : audit_misses(table)) {
    const Measurement& of_table = table.rows[row->row];
    text += warning(table, *row, "the force", row->force_bars, of_table.force_N, row->force_N, "N");
    for (std::size_t k = 0; k < table.circuits.size(); ++k)
      text += warning(table, *row, "the flux linkage of " + table.circuits[k], row->linkage_bars[k],
                      of_table.linkage_Wb[k], row->linkage_Wb[k], "Wb");
  }
  return text;
}

}  // namespace coilpull
