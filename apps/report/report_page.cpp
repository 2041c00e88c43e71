// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/report_page.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "apps/output/csvw_metadata.hpp"
#include "apps/output/device_text.hpp"
#include "apps/output/html_writer.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"
#include "apps/output/winding_text.hpp"
#include "apps/report/base64.hpp"
#include "apps/report/chart_data.hpp"
#include "apps/report/embedded.hpp"
#include "apps/report/known_answers.hpp"
#include "apps/report/report_script.hpp"
#include "apps/report/report_style.hpp"

namespace coilpull {
namespace {

struct Part {
  const char *id, *title;
};
constexpr Part parts[] = {{"does", "What it does"}, {"curves-of-force", "Force"}, {"drawing", "Drawing"},
                          {"fields", "Fields"},     {"flux", "Flux linkage"},     {"materials", "Materials"},
                          {"winding", "Winding"},   {"limits", "Limits"},         {"known", "Known answers"},
                          {"numbers", "Numbers"},   {"made", "How it was made"}};

void begin(HtmlWriter& page, const std::string& id) {
  const auto part =
      std::find_if(std::begin(parts), std::end(parts), [&](const Part& one) { return one.id == id; });
  page.open("section", {{"id", id}, {"aria-labelledby", id + "-title"}});
  page.element("h2", part->title, {{"id", id + "-title"}});
}

void head(HtmlWriter& page, const std::string& title) {
  page.open("head");
  page.single("meta", {{"charset", "utf-8"}});
  page.single("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  // Whatever a name in a file may try: nothing is fetched and nothing is sent.
  page.single("meta", {{"http-equiv", "Content-Security-Policy"},
                       {"content",
                        "default-src 'none'; img-src data:; style-src 'unsafe-inline'; "
                        "script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"}});
  page.single("link", {{"rel", "icon"}, {"href", "data:,"}});
  page.element("title", title + ": coilpull report");
  page.style(std::string(chart_style));
  page.style(report_style);
  page.close();
}

void navigation(HtmlWriter& page) {
  page.open("nav", {{"aria-label", "parts of the report"}});
  page.open("ul");
  for (const Part& part : parts) {
    page.open("li");
    page.element("a", part.title, {{"href", std::string("#") + part.id}});
    page.close();
  }
  page.close();
  page.close();
}

void figure(HtmlWriter& page, const ReportPicture& picture) {
  page.open("figure");
  page.element("h3", picture.title);
  page.single("img", {{"src", "data:image/png;base64," + base64(picture.png)},
                      {"alt", picture.title + ": " + picture.words},
                      {"width", rounded(picture.width, 6)},
                      {"height", rounded(picture.height, 6)}});
  page.element("figcaption", picture.words);
  page.close();
}

/// Text laid out for a screen of letters, line by line: the writer makes a blank of every line's end.
void lines(HtmlWriter& page, const std::string& text) {
  page.open("div", {{"class", "lines"}, {"tabindex", "0"}});
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) page.element("div", line.empty() ? " " : line);
  page.close();
}

std::string without(std::string text, const std::string& piece) {
  const std::size_t at = text.find(piece);
  return at == std::string::npos ? text : text.erase(at, piece.size());
}

void what_it_does(HtmlWriter& page, const ResultFolder& results) {
  begin(page, "does");
  lines(page, without(without(results.summary, std::string(limits_of_the_table) + "\n"), cautions));
  page.open("div", {{"class", "caution"}});
  page.element("strong", "Care. ");
  page.text(cautions);
  page.close();
  page.close();
}

void chart(HtmlWriter& page, const std::string& id, const std::string& label, bool bands) {
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

void force(HtmlWriter& page, const ResultFolder& results, const ReportPicture& on_paper) {
  begin(page, "curves-of-force");
  std::string words =
      "Axial force on the moving parts: above zero pushes towards +z, below pulls towards -z. The narrow "
      "band is "
      "the numerical error bar, often thinner than the line";
  words += results.table.has_spread
               ? "; the wide one is what the stated ranges of the input leave, all at their worst at once."
               : ". The spread of the input was not asked for (coilpull table --spread).";
  page.element("p", words);
  chart(page, "force", "force against displacement", true);
  page.element("p", "Drag to zoom, double click or Escape to see all again.", {{"class", "quiet hint"}});
  page.open("div", {{"class", "onpaper"}});
  figure(page, on_paper);
  page.close();
  page.element("noscript", "The curves need scripts; the numbers below do not.");
  page.close();
}

void flux(HtmlWriter& page, const ResultFolder& results) {
  begin(page, "flux");
  page.element(
      "p", "Of all turns together, the magnets' share included; its numerical error bars are in the table.");
  for (std::size_t k = 0; k < results.table.circuits.size(); ++k)
    chart(page, "linkage" + std::to_string(k), "flux linkage of " + results.table.circuits[k], false);
  page.close();
}

void entry(HtmlWriter& page, const std::string& term, const std::string& words) {
  if (words.empty()) return;
  page.element("dt", term);
  page.element("dd", words);
}

template <class Material>
void material(HtmlWriter& page, const std::string& part, const std::string& as_written,
              const std::optional<Material>& known) {
  page.element("h3", part);
  page.open("dl");
  entry(page, "material", known ? known->name : as_written);
  if (known) {
    entry(page, "family", known->family);
    entry(page, "source", known->source);
    entry(page, "certainty", known->certainty);
    entry(page, "holds for", known->condition);
    entry(page, "do not use", known->beyond);
  } else {
    entry(page, "source", "the device file itself");
    entry(page, "certainty", "not stated");
  }
  page.close();
}

void materials(HtmlWriter& page, const ResultFolder& results, const std::vector<ReportPicture>& steels) {
  begin(page, "materials");
  const Device& device = results.device.device;
  const auto words_of = [&](const std::string& part) {
    const auto found = results.device.words_of.find(part);
    return found == results.device.words_of.end() ? PartWords{} : found->second;
  };
  for (const Core& core : device.cores) material(page, core.name, core.material, words_of(core.name).steel);
  for (const Magnet& magnet : device.magnets)
    material(page, magnet.name, magnet.material, words_of(magnet.name).grade);
  for (const ReportPicture& picture : steels) figure(page, picture);
  page.close();
}

void winding(HtmlWriter& page, const Device& device) {
  begin(page, "winding");
  const std::string sheet = winding_sheets_text(device);
  if (sheet.empty()) page.element("p", "No coil names its wire, so that there is no winding sheet.");
  if (!sheet.empty()) lines(page, sheet);
  for (const std::string& warning : device_warnings(device)) {
    page.open("div", {{"class", "caution"}});
    page.element("strong", "Warning. ");
    page.text(warning);
    page.close();
  }
  page.close();
}

void limits(HtmlWriter& page) {
  begin(page, "limits");
  page.element("p", limits_of_the_table);
  page.element(
      "p",
      "Heat, the rise of the current, losses in a fast pulse and the strength of the parts are not in this "
      "report. A winding at a current that is fine for a pulse may burn when held.");
  page.close();
}

void known(HtmlWriter& page) {
  begin(page, "known");
  page.element("p", known_answers_text());
  page.close();
}

void numbers(HtmlWriter& page, const ForceTableFile& table, const std::vector<std::size_t>& sets) {
  begin(page, "numbers");
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
  page.close();
}

void made(HtmlWriter& page, const ResultFolder& results) {
  begin(page, "made");
  page.open("dl");
  entry(page, "program", results.made_by);
  entry(page, "device file", results.input);
  entry(page, "points",
        std::to_string(results.table.displacements.size()) + " displacements, " +
            std::to_string(results.table.currents_A.size()) + " sets of currents");
  page.close();
  lines(page, device_text(results.device.device));
  page.open("details");
  page.element("summary", "Licence of the charts (dygraphs)");
  lines(page, std::string(chart_licence));
  page.close();
  page.close();
}

}  // namespace

std::string report_page(const ResultFolder& results, const ReportPicture& drawing,
                        const std::vector<ReportPicture>& steels, const std::vector<ReportPicture>& fields) {
  const Device& device = results.device.device;
  const std::vector<std::size_t> shown = curves_shown(results.table);
  HtmlWriter page;
  head(page, device.title);
  page.open("body");
  page.open("header");
  page.element("h1", device.title);
  page.element("p", "Axial force between coil, steel and magnet, with error bars. On axis, statics.",
               {{"class", "quiet"}});
  page.close();
  navigation(page);
  page.open("main");
  what_it_does(page, results);
  force(page, results, picture_of_forces(results));
  begin(page, "drawing");
  figure(page, drawing);
  page.close();
  begin(page, "fields");
  page.element("p",
               "The half above the axis; between two neighbouring lines runs the same flux. Sharp corners "
               "lie above the colours' end.");
  page.open("div", {{"class", "pair"}});
  for (const ReportPicture& picture : fields) figure(page, picture);
  page.close();
  page.close();
  flux(page, results);
  materials(page, results, steels);
  winding(page, device);
  limits(page);
  known(page);
  numbers(page, results.table, shown);
  made(page, results);
  page.close();
  page.script(chart_data(results.table), {{"type", "application/json"}, {"id", "data"}});
  page.script(chart_script);
  page.script(report_script);
  page.close();
  return page.document("en");
}

}  // namespace coilpull
