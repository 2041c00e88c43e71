// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/validation_page.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>

#include "apps/output/html_writer.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/program_version.hpp"
#include "apps/validation/page_style.hpp"
#include "apps/validation/validation_csv.hpp"
#include "apps/validation/validation_pictures.hpp"

namespace coilpull {
namespace {

using Checks = std::vector<const Check*>;

Checks those(const std::vector<Check>& checks, Verdict verdict) {
  Checks chosen;
  for (const Check& check : checks)
    if (verdict_of(check) == verdict) chosen.push_back(&check);
  return chosen;
}

std::vector<const Source*> sources_of(const std::vector<Check>& checks) {
  std::vector<const Source*> sources;
  for (const Check& check : checks)
    if (verdict_of(check) != Verdict::none &&
        std::none_of(sources.begin(), sources.end(),
                     [&](const Source* known) { return known->name == check.source->name; }))
      sources.push_back(check.source);
  return sources;
}

std::string ours_text(const Check& check) {
  if (!std::isfinite(check.ours)) return "none";
  const double digits =
      check.ours == 0 || check.bar <= 0 ? 13 : std::ceil(std::log10(std::abs(check.ours) / check.bar)) + 1;
  return rounded(check.ours, static_cast<int>(std::clamp(digits, 3.0, 13.0)));
}

std::string relative_text(const Check& check) {
  if (!std::isfinite(check.relative_difference())) return "";
  return rounded(100 * check.relative_difference(), 3) + " %";
}

std::string bar_text(double bar) { return std::isfinite(bar) ? rounded(bar, 2) : ""; }

void cell(HtmlWriter& page, const std::string& words, const std::string& kind = "") {
  page.element("td", words, kind.empty() ? HtmlAttributes{} : HtmlAttributes{{"class", kind}});
}

void head(HtmlWriter& page, const std::vector<std::string>& words) {
  page.open("thead");
  page.open("tr");
  for (const std::string& one : words) page.element("th", one, {{"scope", "col"}});
  page.close();
  page.close();
}

std::string class_of(Verdict verdict) {
  return verdict == Verdict::not_recomputed || verdict == Verdict::undecided ? "left" : word_for(verdict);
}

enum class Columns { judged, from_memory };

void rows(HtmlWriter& page, const Checks& checks, Columns columns, bool with_source) {
  const bool judged = columns == Columns::judged;
  page.open("table", {{"class", with_source ? "values sourced" : "values"}});
  std::vector<std::string> names{"what", "theirs", "certainty", "ours", "our bar", "difference", "by"};
  if (with_source) names.insert(names.begin(), "source");
  if (judged) names.insert(names.end(), {"verdict"});
  head(page, names);
  page.open("tbody");
  for (const Check* check : checks) {
    page.open("tr");
    if (with_source) cell(page, check->source->name);
    cell(page, check->what + (check->unit == "1" ? "" : " [" + check->unit + "]"));
    cell(page, check->their_text, "number");
    cell(page, word_for(check->certainty));
    cell(page, ours_text(*check), "number");
    cell(page, bar_text(check->bar), "number");
    cell(page, relative_text(*check), "number");
    cell(page, check->method);
    if (judged) cell(page, word_for(verdict_of(*check)), class_of(verdict_of(*check)));
    page.close();
  }
  page.close();
  page.close();
}

void reasons(HtmlWriter& page, const Checks& checks) {
  page.open("ul");
  std::string last;
  for (const Check* check : checks) {
    if (check->source->name + check->reason == last) continue;
    last = check->source->name + check->reason;
    page.open("li");
    page.element("strong", check->source->name);
    page.text(" (" + check->what + "): " + check->reason);
    page.close();
  }
  page.close();
}

void section(HtmlWriter& page, const std::string& title, const std::string& words, const Checks& checks,
             Columns columns) {
  if (checks.empty()) return;
  page.open("section");
  page.element("h2", title);
  page.element("p", words);
  if (!checks.front()->reason.empty()) reasons(page, checks);
  rows(page, checks, columns, true);
  page.close();
}

void overview(HtmlWriter& page, const std::vector<Check>& checks, const std::vector<const Source*>& sources) {
  page.open("section");
  page.element("h2", "Sources");
  page.open("table", {{"class", "overview"}});
  head(page,
       {"source", "comparisons", "agree", "explained", "differ", "median difference", "largest difference"});
  page.open("tbody");
  for (std::size_t i = 0; i < sources.size(); ++i) {
    std::vector<Check> mine;
    std::vector<double> off;
    for (const Check& check : checks) {
      if (check.source->name != sources[i]->name) continue;
      mine.push_back(check);
      if (std::isfinite(check.relative_difference()))
        off.push_back(100 * std::abs(check.relative_difference()));
    }
    std::sort(off.begin(), off.end());
    const ValidationCounts counts = count(mine);
    page.open("tr");
    page.open("td");
    page.element("a", sources[i]->name, {{"href", "#source" + std::to_string(i)}});
    page.close();
    cell(page, std::to_string(counts.checks), "number");
    cell(page, std::to_string(counts.agrees), "number");
    cell(page, std::to_string(counts.explained), counts.explained > 0 ? "number explained" : "number");
    cell(page, std::to_string(counts.differs), counts.differs > 0 ? "number differs" : "number");
    cell(page, off.empty() ? "" : rounded(off[off.size() / 2], 3) + " %", "number");
    cell(page, off.empty() ? "" : rounded(off.back(), 3) + " %", "number");
    page.close();
  }
  page.close();
  page.close();
  page.close();
}

void every_value(HtmlWriter& page, const std::vector<Check>& checks,
                 const std::vector<const Source*>& sources) {
  page.element("h2", "Every value");
  for (std::size_t i = 0; i < sources.size(); ++i) {
    Checks mine;
    for (const Check& check : checks)
      if (check.source->name == sources[i]->name && verdict_of(check) != Verdict::none)
        mine.push_back(&check);
    page.open("section", {{"id", "source" + std::to_string(i)}});
    page.element("h3", sources[i]->name);
    page.element("p", sources[i]->words + ". File: data/published/" + sources[i]->file + ".");
    rows(page, mine, Columns::judged, false);
    page.close();
  }
}

void how_to_read(HtmlWriter& page) {
  page.open("dl");
  const auto explain = [&](const std::string& term, const std::string& words) {
    page.element("dt", term);
    page.element("dd", words);
  };
  explain(
      "agrees",
      "Ours and theirs are no further apart than our numerical bar and their uncertainty together: half a "
      "unit of their last digit, or what they state.");
  explain("undecided",
          "The same, but the bars together are wider than 5 % of the value: it says little. Mostly small "
          "differences of large numbers, or forces near 0 of a table with a large one.");
  explain("explained",
          "They are further apart, by what the source is known to neglect or to have slipped in; the reason "
          "is given and its size is checked.");
  explain("differs", "Further apart, and we know no reason.");
  explain(
      "our bar",
      "Numerical only. Finite elements: the program's own bar of forces and linkages; for fields, means and "
      "fluxes the change from one order to the next and from one mesh to another. Closed formulas: "
      "rounding. Where a mesh cannot have a thin ring or endless iron, the closed formula for the drawn "
      "shape over that for the published one takes the difference off, or the bar holds it.");
  explain("certainty",
          "read: stood in a stored copy of the source. recomputed: worked out from the source's formula or "
          "definition by routes that are not ours. memory: not judged, listed at the end.");
  page.close();
}

void pictures(HtmlWriter& page, const std::vector<Check>& checks) {
  page.open("div", {{"class", "pictures"}});
  draw_figures(page, checks);
  page.close();
}

constexpr const char* textbook_words =
    R"(Del Toro's, Fitzgerald's, Sadiku's and other textbooks compute pulls and currents with one loop of even flux
through gaps and iron. Our own series circuit, with the same neglects, meets the printed figures but two, which do not
follow from their own data as our file has them, by a factor of two. Finite elements do not neglect the field that
bulges out beside a gap: it adds flux, so that less current is needed and the keeper is pulled harder, by a few times
gap over pole radius. The rows below show by how much, next to an estimate from the length of the edges; as the gap
closes the difference goes to zero.)";

void fringing_words(HtmlWriter& page) {
  page.open("section");
  page.element("h2", "Textbook pulls and the fringing they neglect");
  page.element("p", textbook_words);
  page.close();
}

}  // namespace

PageStamp page_made_now(bool complete) {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  char date[16];
  std::strftime(date, sizeof date, "%Y-%m-%d", &utc);
  return {date, program_version(), complete};
}

std::string validation_page(const std::vector<Check>& checks, const PageStamp& stamp) {
  const std::vector<const Source*> sources = sources_of(checks);
  HtmlWriter page;
  page.open("head");
  page.single("meta", {{"charset", "utf-8"}});
  page.single("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  page.single("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
  page.element("title", "coilpull: where the answer is known");
  page.style(page_style);
  page.close();
  page.open("body");
  page.open("main");
  page.element("h1", "coilpull where the answer is known");
  page.element("p",
               "coilpull " + stamp.version + ", " + stamp.date +
                   (stamp.complete ? ". Written by: coilpull validate"
                                   : ". Only the quick cases. Written by: coilpull validate --quick"),
               {{"class", "stamp"}});
  page.element("p", totals_text(count(checks)), {{"class", "totals"}});
  how_to_read(page);
  pictures(page, checks);
  overview(page, checks, sources);
  section(page, "Differs", "No reason is known for these.", those(checks, Verdict::differs), Columns::judged);
  fringing_words(page);
  section(page, "Explained", "Further apart than both uncertainties, for a known reason of a known size.",
          those(checks, Verdict::explained), Columns::judged);
  section(page, "Undecided", "Met, but within bars wider than 5 % of the value.",
          those(checks, Verdict::undecided), Columns::judged);
  every_value(page, checks, sources);
  section(page, "Not recomputed", "In the files, but not within what the program can be asked.",
          those(checks, Verdict::not_recomputed), Columns::judged);
  section(page, "From memory, not judged",
          "No stored copy of these sources was at hand: the values are quoted from memory and prove nothing.",
          those(checks, Verdict::none), Columns::from_memory);
  page.element(
      "p",
      "Statics on one axis. Bars are numerical: they say how exactly the stated case was computed, not how "
      "well a real part is known. Strong magnets pinch; keep fingers clear.",
      {{"class", "stamp"}});
  page.close();
  page.close();
  return page.document("en");
}

}  // namespace coilpull
