// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/report_page.hpp"

#include "apps/output/csvw_metadata.hpp"
#include "apps/output/device_text.hpp"
#include "apps/output/summary.hpp"
#include "apps/report/chart_data.hpp"
#include "apps/report/device_section.hpp"
#include "apps/report/embedded.hpp"
#include "apps/report/force_section.hpp"
#include "apps/report/known_answers.hpp"
#include "apps/report/report_script.hpp"
#include "apps/report/report_style.hpp"
#include "apps/report/table_script.hpp"
#include "apps/report/variants_section.hpp"

namespace coilpull {
namespace {

void write_head(HtmlWriter& page, const std::string& title) {
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

void write_navigation(HtmlWriter& page, const std::vector<ReportSection>& sections) {
  page.open("nav", {{"aria-label", "parts of the report"}});
  page.open("ul");
  for (const ReportSection& section : sections) {
    page.open("li");
    page.element("a", section.title, {{"href", "#" + section.id}});
    page.close();
  }
  page.close();
  page.close();
}

std::string without(std::string text, const std::string& piece) {
  const std::size_t at = text.find(piece);
  return at == std::string::npos ? text : text.erase(at, piece.size());
}

void write_what_it_does(HtmlWriter& page, const ResultFolder& results) {
  add_lines(page, without(without(results.summary, std::string(limits_of_the_table) + "\n"), cautions));
  add_caution(page, "Take care:", without(cautions, "Take care: "));
}

void write_fields(HtmlWriter& page, const std::vector<ReportPicture>& fields) {
  page.element("p",
               "The half above the axis; between two neighbouring lines runs the same flux. Sharp corners "
               "lie above the colours' end.");
  page.open("div", {{"class", "pair"}});
  for (const ReportPicture& picture : fields) add_figure(page, picture);
  page.close();
}

void write_limits(HtmlWriter& page, const ReportContents& contents) {
  page.element("p", limits_of_the_table);
  page.element(
      "p", contents.topics.empty()
               ? "Heat, switching, holding, sensors and ratings are not in this report: " +
                     (contents.why_no_topics.empty() ? "they were not asked for." : contents.why_no_topics)
               : "What is said of heat, switching, holding, sensors and ratings rests on this table and on "
                 "the supply, duty and load that the device file states, or on what is assumed where it "
                 "states none. The current stands at once but in the stroke; losses in a fast pulse and the "
                 "strength of the parts are not in it.");
  page.element("p", "A winding at a current that is fine for a pulse may burn when held.");
}

void write_made(HtmlWriter& page, const ResultFolder& results) {
  page.open("dl");
  add_entry(page, "program", results.made_by);
  add_entry(page, "device file", results.input);
  add_entry(page, "points",
            std::to_string(results.table.displacements.size()) + " displacements, " +
                std::to_string(results.table.currents_A.size()) + " sets of currents");
  page.close();
  add_lines(page, device_text(results.device.device));
  page.open("details");
  page.element("summary", "Licence of the charts (dygraphs)");
  add_lines(page, std::string(chart_licence));
  page.close();
}

std::vector<ReportSection> sections_of(const ResultFolder& results, const ReportContents& contents) {
  using Page = HtmlWriter;
  const ForceTableFile& table = results.table;
  std::vector<ReportSection> all = {
      {"does", "What it does", [&](Page& page) { write_what_it_does(page, results); }},
      {"curves-of-force", "Force", [&](Page& page) { write_force(page, table, picture_of_forces(results)); }},
      {"drawing", "Drawing", [&](Page& page) { add_figure(page, contents.drawing); }},
      {"fields", "Fields", [&](Page& page) { write_fields(page, contents.fields); }},
      {"flux", "Flux linkage",
       [&](Page& page) { write_flux_linkage(page, table, pictures_of_linkages(results)); }}};
  for (const ReportTopic& topic : contents.topics)
    all.push_back({"topic" + std::to_string(all.size()), topic.title,
                   [&topic](Page& page) { write_topic(page, topic); }});
  if (contents.variants)
    all.push_back({"variants", "Variants", [&](Page& page) { write_variants(page, *contents.variants); }});
  const std::vector<ReportSection> rest = {
      {"materials", "Materials", [&](Page& page) { write_materials(page, results.device, contents.steels); }},
      {"winding", "Winding", [&](Page& page) { write_winding(page, results.device.device); }},
      {"limits", "Limits", [&](Page& page) { write_limits(page, contents); }},
      {"known", "Known answers", [](Page& page) { page.element("p", known_answers_text()); }},
      {"numbers", "Numbers", [&](Page& page) { write_numbers(page, table); }},
      {"made", "How it was made", [&](Page& page) { write_made(page, results); }}};
  all.insert(all.end(), rest.begin(), rest.end());
  return all;
}

}  // namespace

std::string report_page(const ResultFolder& results, const ReportContents& contents) {
  const std::string& title = results.device.device.title;
  const std::vector<ReportSection> sections = sections_of(results, contents);
  HtmlWriter page;
  write_head(page, title);
  page.open("body");
  page.open("header");
  page.element("h1", title);
  page.element("p", "Axial force between coil, steel and magnet, with error bars. On axis, statics.",
               {{"class", "quiet"}});
  page.close();
  write_navigation(page, sections);
  page.open("main");
  for (const ReportSection& section : sections) {
    page.open("section", {{"id", section.id}, {"aria-labelledby", section.id + "-title"}});
    page.element("h2", section.title, {{"id", section.id + "-title"}});
    section.write(page);
    page.close();
  }
  page.close();
  page.script(chart_data(results.table), {{"type", "application/json"}, {"id", "data"}});
  page.script(chart_script);
  page.script(report_script);
  page.script(table_script);
  page.close();
  return page.document("en");
}

}  // namespace coilpull
