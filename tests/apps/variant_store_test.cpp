// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/variant_store.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "apps/device_file/bad_device.hpp"
#include "apps/output/safe_file.hpp"
#include "tests/apps/scratch_folder.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

VariantResult result_with(double force) {
  return {"ok",
          "",
          "title = \"a\"\n",
          "displacement_mm,...\r\n",
          {{"force_N", {force, 0.1}}, {"work_J", {0.5, 0}}}};
}

}  // namespace

TEST_CASE(
    "a store gives back what was put in, also after it was closed, and refuses a second result for a key") {
  const ScratchFolder scratch;
  const fs::path file = scratch.folder / "variants.db";
  {
    VariantStore store(file);
    store.add("a", result_with(3.25));
    CHECK_THROWS_AS(store.add("a", result_with(1)), CannotWrite);
    CHECK(store.size() == 1);
  }
  VariantStore store(file);
  CHECK(store.is_settled("a"));
  CHECK_FALSE(store.is_settled("b"));
  CHECK_FALSE(store.find("b"));
  const auto found = store.find("a");
  REQUIRE(found);
  CHECK(found->figures.at("force_N").value == 3.25);
  CHECK(found->figures.at("force_N").error == 0.1);
  CHECK(found->figures.size() == 2);
  CHECK(found->table_csv == "displacement_mm,...\r\n");
}

TEST_CASE("a mesh that failed is tried again and gives way to a result, any other result stays") {
  const ScratchFolder scratch;
  VariantStore store(scratch.folder / "variants.db");
  VariantResult failed = result_with(1);
  failed.status = "meshing_failed";
  store.add("a", failed);
  CHECK_FALSE(store.is_settled("a"));
  store.add("a", result_with(2));
  CHECK(store.find("a")->figures.at("force_N").value == 2);
}

TEST_CASE("stores merge to the union of their results, and two results for one key are told") {
  const ScratchFolder scratch;
  const fs::path first = scratch.folder / "1.db", second = scratch.folder / "2.db",
                 other = scratch.folder / "3.db";
  VariantStore(first).add("a", result_with(1));
  {
    VariantStore store(second);
    store.add("a", result_with(1));
    store.add("b", result_with(2));
  }
  VariantResult different = result_with(1);
  different.table_csv += "1\r\n";
  VariantStore(other).add("a", different);
  VariantStore all(scratch.folder / "all.db");
  CHECK(all.merge_from(first) == 1);
  CHECK(all.merge_from(second) == 1);
  CHECK(all.size() == 2);
  CHECK(all.find("b")->figures.at("force_N").value == 2);
  CHECK_THROWS_WITH_AS(all.merge_from(other), doctest::Contains("gave two tables"), BadDevice);
  CHECK(all.size() == 2);
  CHECK_THROWS_AS(all.merge_from(scratch.write("4.db", "no store, but long enough to be read as one")),
                  BadDevice);
}

TEST_CASE("one store serves one run at a time") {
  const ScratchFolder scratch;
  const VariantStore held(scratch.folder / "variants.db");
  CHECK_THROWS_WITH_AS(VariantStore(scratch.folder / "variants.db"),
                       doctest::Contains("another run holds it"), CannotWrite);
}
