// SPDX-License-Identifier: GPL-3.0-or-later
// Verdicts, page and CSV on made-up checks; the committed copy in data/validation for what the real data
// give; and the quickest families once through.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "apps/output/html_writer.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "apps/validation/validation_csv.hpp"
#include "apps/validation/validation_page.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

const Source sharp{"<Sharp & \"Flat\">", "A source's name with <script> in it", "none.csv"};

Check check_of(double theirs, double ours, double bar, double their_bar = 0) {
  Check check;
  check.source = &sharp;
  check.what = "value of " + std::to_string(ours);
  check.unit = "N";
  check.their_text = std::to_string(theirs);
  check.theirs = theirs;
  check.their_bar = their_bar;
  check.method = "finite elements";
  check.ours = ours;
  check.bar = bar;
  return check;
}

Check from_memory() {
  Check check = check_of(4.0, 4.0, 0.1);
  check.what = "half remembered";
  check.certainty = Certainty::memory;
  return check;
}

std::size_t times(const std::string& text, const std::string& words) {
  std::size_t found = 0;
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++found;
  return found;
}

std::string file_text(const std::string& path) {
  std::ifstream stream(std::string(COILPULL_SOURCE_DIR) + "/" + path);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("half a unit of the last printed digit is read off the print") {
  CHECK(half_last_digit("0.796") == near(5e-4, 1e-12));
  CHECK(half_last_digit("-703") == near(0.5, 1e-12));
  CHECK(half_last_digit("2.4878e-7") == near(5e-12, 1e-12));
  CHECK(half_last_digit("7.80E2") == near(0.5, 1e-12));
  CHECK_THROWS_AS(half_last_digit("0.80 A"), std::invalid_argument);
}

TEST_CASE("a value agrees within both bars, is explained within the known shift, and else differs") {
  CHECK(verdict_of(check_of(1, 1.01, 0.006, 0.005)) == Verdict::agrees);
  CHECK(verdict_of(check_of(1, 1.01, 0.004, 0.005)) == Verdict::differs);
  CHECK(verdict_of(check_of(1, 1.01, 0.04, 0.02)) == Verdict::undecided);

  Check fringing = check_of(1, 1.10, 0.001);
  fringing.shift = 0.08;
  fringing.shift_bar = 0.02;
  CHECK(verdict_of(fringing) == Verdict::differs);  // a shift without a reason explains nothing
  fringing.reason = "fringing";
  CHECK(verdict_of(fringing) == Verdict::explained);
  fringing.shift_bar = 0.01;
  CHECK(verdict_of(fringing) == Verdict::differs);
}

TEST_CASE("what could not be computed differs unless it says why, and memory is never judged") {
  Check lost = check_of(1, std::nan(""), std::nan(""));
  CHECK(verdict_of(lost) == Verdict::differs);
  lost.reason = "no such law";
  CHECK(verdict_of(lost) == Verdict::not_recomputed);
  CHECK(verdict_of(from_memory()) == Verdict::none);
}

TEST_CASE(
    "one value computed by two methods counts once, and memory, undecided and left-out values not at all") {
  Check formula = check_of(1, 1.0, 0.01), elements = formula, wide = check_of(2, 2, 1);
  formula.method = "closed formula";
  const ValidationCounts counts = count({elements, formula, wide, from_memory(), check_of(3, 4, 0.1)});
  CHECK(counts.values == 2);
  CHECK(counts.checks == 3);
  CHECK(counts.sources == 1);
  CHECK(counts.agrees == 2);
  CHECK(counts.undecided == 1);
  CHECK(counts.differs == 1);
  CHECK(counts.memory == 1);
}

TEST_CASE("the page shows every row, escapes every name, and gives memory no verdict") {
  const std::vector<Check> checks{check_of(1, 1, 0.01), check_of(2, 3, 0.01), from_memory()};
  const std::string page = validation_page(checks, {"2000-01-01", "9.8.7", true});
  CHECK(page.find("coilpull 9.8.7, 2000-01-01") != std::string::npos);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("<Sharp") == std::string::npos);
  CHECK(page.find("&lt;Sharp &amp; &quot;Flat&quot;&gt;") != std::string::npos);
  CHECK(times(page, "value of 1.000000") == 1);
  CHECK(times(page, "value of 3.000000") >= 2);  // among its source and among those that differ
  const std::size_t apart = page.find("From memory, not judged");
  REQUIRE(apart != std::string::npos);
  CHECK(page.find("half remembered") > apart);
  CHECK(page.find("agrees", apart) == std::string::npos);
  CHECK(page.find("prefers-color-scheme: dark") != std::string::npos);
}

TEST_CASE("a writer of HTML notices a tag that is left open, and keeps control characters out") {
  HtmlWriter page;
  CHECK_THROWS_AS(page.close(), std::logic_error);
  page.open("p", {{"title", "5 \" < 6"}});
  CHECK_THROWS_AS(page.document("en"), std::logic_error);
  page.text("a\x01<b>");
  page.close();
  CHECK(page.document("en").find("<p title=\"5 &quot; &lt; 6\">a &lt;b&gt;</p>") != std::string::npos);
}

TEST_CASE("the CSV has a row a check, with certainty and verdict, and none for memory") {
  const std::string text = validation_csv({check_of(1, 1, 0.01), from_memory()});
  CHECK(times(text, "\r\n") == 3);
  CHECK(text.find("\"<Sharp & \"\"Flat\"\">\"") != std::string::npos);
  CHECK(text.find(",recomputed,finite elements,1,0,0,0.01,agrees,") != std::string::npos);
  CHECK(text.find(",memory,finite elements,4,0,0,0.1,,") != std::string::npos);
}

TEST_CASE("the families that take a moment recompute and agree or are explained") {
  Validation all = validate({{"core", check_solenoid_core, true},
                             {"books", check_textbook_circuits, true},
                             {"wire", check_wire_gauges, true}},
                            1, {});
  const ValidationCounts counts = count(all.checks());
  CHECK(counts.differs == 0);
  CHECK(counts.agrees >= 54 + 10 + 24);  // four laws, the books' examples and Maxwell's pulls, printed gauges
  CHECK(counts.memory == 1);
  for (const Check& check : all.checks()) {
    INFO(line_of(check));
    CHECK((verdict_of(check) != Verdict::explained || !check.reason.empty()));
    CHECK(std::isfinite(check.bar));
  }
}

TEST_CASE("a bar from orders and meshes covers what the closed formula knows") {
  Record record;
  check_linear_balls(record);
  REQUIRE(record.checks.size() > 40);
  for (const Check& check : record.checks) {
    INFO(line_of(check));
    CHECK(verdict_of(check) == Verdict::agrees);
    CHECK(check.bar < 1e-3 * std::abs(check.theirs));
  }
}

TEST_CASE(
    "the committed copy holds 200 values of 12 sources and more, none differing, and its page shows all") {
  const CsvFile table = read_csv("data/validation/validation.csv");
  std::set<std::string> values, sources;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& verdict = table.text_at(i, "verdict");
    CHECK(verdict != "differs");
    CHECK(verdict.empty() == (table.text_at(i, "their_certainty") == "memory"));
    if (verdict != "agrees" && verdict != "explained") continue;
    values.insert(table.text_at(i, "source") + table.text_at(i, "what") + table.text_at(i, "their_value"));
    sources.insert(table.text_at(i, "source"));
  }
  CHECK(values.size() >= 200);
  CHECK(sources.size() >= 12);
  const std::string page = file_text("data/validation/index.html");
  std::size_t missing = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i)
    if (page.find(html_text(table.text_at(i, "what"))) == std::string::npos) ++missing;
  CHECK(missing == 0);
  CHECK(page.find(std::to_string(values.size()) + " published or exact values") != std::string::npos);
}
