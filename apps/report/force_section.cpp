// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/force_section.hpp"

#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/report/chart_data.hpp"

namespace coilpull {
namespace {

void add_chart(HtmlWriter& page, const std::string& id, const std::string& label, bool bands) {
  page.open("div", {{"class", "chart"}, {"id", id}});
  if (bands) {
    page.open("fieldset", {{"class", "choices bands"}});
    page.element("legend", "Bands");
    page.close();
    page.open("fieldset", {{"class", "choices"}, {"id", "curves"}});
    page.element("legend", "Curves");
    page.close();
  }
  page.element("div", "",
               {{"class", "plot"}, {"role", "img"}, {"aria-label", label + "; arrow keys read values"}});
  page.element("div", "", {{"class", "reading"}, {"aria-live", "polite"}});
  page.close();
}

/// Stands for curves where nothing can be pointed at.
void add_on_paper(HtmlWriter& page, const std::vector<ReportPicture>& pictures) {
  page.open("div", {{"class", "onpaper"}});
  for (const ReportPicture& picture : pictures) add_figure(page, picture);
  page.close();
}

}  // namespace

void write_force(HtmlWriter& page, const ForceTableFile& table, const ReportPicture& on_paper) {
  std::string words =
      "Axial force on the moving parts: above zero pushes towards +z, below pulls towards -z. The narrow "
      "band is "
      "the numerical error bar, often thinner than the line";
  words += table.has_spread
               ? "; the wide one is what the stated ranges of the input leave, all at their worst at once."
               : ". The spread of the input was not asked for (coilpull table --spread).";
  page.element("p", words);
  add_chart(page, "force", "force against displacement", true);
  page.element("p", "Drag to zoom, double click or Escape to see all again.", {{"class", "quiet hint"}});
  add_on_paper(page, {on_paper});
  page.element("noscript", "The curves need scripts; the numbers below do not.");
}

void write_flux_linkage(HtmlWriter& page, const ForceTableFile& table,
                        const std::vector<ReportPicture>& on_paper) {
  page.element(
      "p", "Of all turns together, the magnets' share included; its numerical error bars are in the table.");
  for (std::size_t k = 0; k < table.circuits.size(); ++k)
    add_chart(page, "linkage" + std::to_string(k), "flux linkage of " + table.circuits[k], false);
  add_on_paper(page, on_paper);
}

void write_numbers(HtmlWriter& page, const ForceTableFile& table) {
  const std::vector<std::size_t> sets = curves_shown(table);
  page.open("details");
  page.element("summary", "Force in N with its numerical error bar, " + std::to_string(sets.size()) + " of " +
                              std::to_string(table.currents_A.size()) + " currents");
  page.open("div", {{"class", "scroll"}, {"tabindex", "0"}});
  page.open("table");
  page.open("thead");
  page.open("tr");
  page.element("th", "mm", {{"scope", "col"}});
  for (const std::size_t set : sets) page.element("th", label_of(table, set), {{"scope", "col"}});
  page.close();
  page.close();
  page.open("tbody");
  for (std::size_t d = 0; d < table.displacements.size(); ++d) {
    page.open("tr");
    page.element("th", shortest(in_mm(table.displacements[d])), {{"scope", "row"}});
    for (const std::size_t set : sets) {
      const TabledForce& row = table.at(d, set);
      page.element("td", std::isfinite(row.force_N) ? with_bar({row.force_N, row.bar_N}) : "not usable",
                   {{"class", "number"}});
    }
    page.close();
  }
  for (int open = 0; open < 4; ++open) page.close();
}

}  // namespace coilpull
