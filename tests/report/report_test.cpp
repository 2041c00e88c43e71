// SPDX-License-Identifier: GPL-3.0-or-later
#include <filesystem>
#include <fstream>
#include <string>

#include "apps/device_file/bad_device.hpp"
#include "apps/output/html_writer.hpp"
#include "apps/output/sha256.hpp"
#include "apps/output/small_png.hpp"
#include "apps/report/base64.hpp"
#include "apps/report/chart_data.hpp"
#include "apps/report/embedded.hpp"
#include "apps/report/report_page.hpp"
#include "tests/apps/scratch_folder.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

std::size_t count(const std::string& text, const std::string& piece) {
  std::size_t found = 0;
  for (std::size_t at = 0; (at = text.find(piece, at)) != std::string::npos; at += piece.size()) ++found;
  return found;
}

/// A folder as coilpull table leaves it, with words that would like to be markup. Forces are made up.
struct HostileFolder : ScratchFolder {
  HostileFolder() {
    write("device.toml", R"(title = "</script><b onclick='x'>\"&"
[coil.drive]
tube = { inner_radius_mm = 5, outer_radius_mm = 8, from_mm = -5, to_mm = 5 }
turns = 100
[magnet.plunger]
material = { remanence_T = 1.2, recoil_permeability = 1.05 }
cylinder = { radius_mm = 4, from_mm = 10, to_mm = 15 }
magnetised = "+z"
[motion]
moving = ["plunger"]
displacement_mm = [0, 1]
[current]
drive_A = [-1, 1]
)");
    write("summary.txt", "All <b>is</b> well & good.\n");
    write("force_table.csv",
          "displacement_mm,current_drive_A,force_N,force_numerical_error_N,flux_linkage_drive_Wb,force_low_N,"
          "force_high_N\n"
          "0,-1,0.5,0.01,0.001,0.4,0.6\n0,1,-0.5,0.01,-0.001,-0.6,-0.4\n"
          "1,-1,0.25,0.01,0.001,0.2,0.3\n1,1,NaN,NaN,NaN,NaN,NaN\n");
  }
};

}  // namespace

TEST_CASE("base64 codes the examples of RFC 4648, section 10") {
  CHECK(base64("") == "");
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foob") == "Zm9vYg==");
  CHECK(base64("foobar") == "Zm9vYmFy");
  CHECK(base64("\xff\xfe") == "//4=");
}

TEST_CASE("a picture of few colours keeps every one, of many its most frequent") {
  const auto palette_entries = [](const std::string& png) {  // PNG (ISO/IEC 15948) 11.2.3: 3 bytes an entry
    const std::size_t at = png.find("PLTE");
    REQUIRE(at != std::string::npos);
    std::string colours = png.substr(
        at + 4, static_cast<unsigned char>(png[at - 1]) + 256U * static_cast<unsigned char>(png[at - 2]));
    return colours;
  };
  CHECK(palette_entries(small_png({2, 2, {0xffffff, 0x102030, 0x102031, 0xffffff}})).size() == 9);
  Pixels many{100, 100, {}};
  for (unsigned k = 0; k < 5000; ++k) many.rgb.push_back(0xffffff);
  for (unsigned k = 0; k < 5000; ++k) many.rgb.push_back(k * 977U);
  const std::string colours = palette_entries(small_png(many));
  CHECK(colours.size() == 3 * 256);
  bool paper = false;
  for (std::size_t k = 0; k < colours.size(); k += 3) paper |= colours.substr(k, 3) == "\xff\xff\xff";
  CHECK(paper);
}

TEST_CASE("the page refuses a script that would end itself") {
  HtmlWriter page;
  CHECK_THROWS_AS(page.script("a = '</script>'"), std::logic_error);
  CHECK_THROWS_AS(page.script("a <!-- b"), std::logic_error);
}

TEST_CASE("the curves of a report are those of the table, what is not usable is null") {
  const HostileFolder hostile;
  const ResultFolder results = open_result_folder(hostile.folder);
  const std::string data = chart_data(results.table);
  CHECK(data.find("\"force\":[0.5,0.25]") != std::string::npos);
  CHECK(data.find("\"force\":[-0.5,null]") != std::string::npos);
  CHECK(data.find("\"low\":[0.4,0.2]") != std::string::npos);
  CHECK(data.find("\"linkage\":[[1,1]]") != std::string::npos);  // mWb
  CHECK(data.find('<') == std::string::npos);
}

TEST_CASE(
    "a table larger than any description is reported, and every file that was read is known by its hash") {
  const HostileFolder hostile;
  const fs::path& folder = hostile.folder;
  std::ofstream(folder / "force_table.csv", std::ios::binary | std::ios::app)
      << std::string(5U << 20, '#') << "\n";
  const ResultFolder results = open_result_folder(folder);
  CHECK(results.table.rows.size() == 4);
  REQUIRE(results.files.size() >= 2);  // others may have left a description
  CHECK(results.files[0].file_name == "summary.txt");
  CHECK(results.files[0].sha256 == sha256("All <b>is</b> well & good.\n"));
  CHECK(results.files[1].sha256 == results.table.sha256);
}

TEST_CASE("no word of a file becomes markup of the report, and nothing in it is fetched") {
  const HostileFolder hostile;
  const ResultFolder results = open_result_folder(hostile.folder);
  const std::string page = report_page(results, {picture_of_device(results.device.device)});
  CHECK(page.find("<b") == page.find("<body>"));
  CHECK(page.find("<div>All &lt;b&gt;is&lt;/b&gt; well &amp; good.</div>") != std::string::npos);
  CHECK(count(page, "</script>") == 4);  // the data, the charts, what draws them, and the tables
  for (const char* const fetched : {"src=\"http", "href=\"http", "url(", "@import", "<link rel=\"stylesheet"})
    CHECK_MESSAGE(page.find(fetched) == std::string::npos, fetched);
  CHECK(page.find(std::string(chart_licence.substr(0, 40)).substr(0, 30)) != std::string::npos);
  CHECK(page.find("charge, to any person") != std::string::npos);  // of the licence of the charts
}

TEST_CASE("a description of the table that says other things, or nothing, leaves the report without them") {
  const HostileFolder hostile;
  const fs::path& folder = hostile.folder;
  for (const char* description :
       {"{\"notes\":[5]}", "{\"notes\":{}}", "[[[[", "7", "{\"notes\":[{\"program\":5,\"input\":\"x\"}]}",
        "{\"notes\":[{\"discretisation\":{\"polynomial_order\":1e9}}]}"}) {
    std::ofstream(folder / "force_table.csv-metadata.json") << description;
    const ResultFolder results = open_result_folder(folder);
    CHECK(results.made_by.empty());
    CHECK(results.input.empty());
    CHECK(results.order == 4);
  }
}

TEST_CASE("a folder without the device that was solved is refused with what to do") {
  const HostileFolder hostile;
  const fs::path& folder = hostile.folder;
  fs::remove(folder / "device.toml");
  try {
    open_result_folder(folder);
    FAIL("accepted");
  } catch (const BadDevice& e) {
    CHECK(std::string(e.what()).find("solve the device again") != std::string::npos);
  }
}

}  // namespace coilpull
