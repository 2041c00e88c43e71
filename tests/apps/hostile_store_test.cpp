// SPDX-License-Identifier: GPL-3.0-or-later
// Files variants.db that somebody else made: refused, not run.
#include <sqlite3.h>

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "apps/device_file/bad_device.hpp"
#include "apps/variants/variant_store.hpp"
#include "tests/apps/scratch_folder.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

void run_sql(const fs::path& file, const std::string& sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK);
  CHECK(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(db);
}

/// What is said when the store is merged into a new one; empty when it is taken.
std::string said_of_merging(const ScratchFolder& scratch, const fs::path& store) {
  fs::remove(scratch.folder / "all.db");
  VariantStore all(scratch.folder / "all.db");
  try {
    all.merge_from(store);
  } catch (const BadDevice& refused) {
    return scratch.without_path(refused.what());
  }
  return "";
}

}  // namespace

TEST_CASE("a store with a table, view or trigger that is not ours is none") {
  const ScratchFolder scratch;
  for (const char* added :
       {"CREATE TABLE more (x);", "CREATE VIEW more AS SELECT 1;",
        "CREATE TRIGGER more AFTER INSERT ON result BEGIN DELETE FROM figure; END;",
        // what is asked of it would never end
        "DROP TABLE figure; DROP TABLE stroke_figure; DROP TABLE stroke; DROP TABLE result;"
        "CREATE VIEW result AS WITH RECURSIVE c(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM c) SELECT x AS "
        "key "
        "FROM c;"}) {
    fs::remove(scratch.folder / "other.db");
    VariantStore(scratch.folder / "other.db").add("a", {"ok", "", "", "", {}});
    CHECK(said_of_merging(scratch, scratch.folder / "other.db") == "");
    run_sql(scratch.folder / "other.db", added);
    CHECK(said_of_merging(scratch, scratch.folder / "other.db").find("other.db: is no store of variants") ==
          0);
  }
}

TEST_CASE("a store whose key is no text, or whose pages are torn, is damaged") {
  const ScratchFolder scratch;
  const fs::path file = scratch.folder / "other.db";
  VariantStore(file).add("a", {"ok", "", "", std::string(20000, 'x'), {}});
  run_sql(file, "UPDATE result SET key = x'00ff';");
  CHECK(said_of_merging(scratch, file).find("other.db: is damaged") == 0);
  std::fstream(file, std::ios::in | std::ios::out | std::ios::binary).seekp(4096 + 5)
      << std::string(9000, '\xff');
  CHECK(said_of_merging(scratch, file).find("other.db: is ") == 0);
}

TEST_CASE("an empty file is no store to merge from, and stays empty") {
  const ScratchFolder scratch;
  const fs::path file = scratch.write("other.db", "");
  CHECK(said_of_merging(scratch, file) == "other.db: is empty.");
  CHECK(fs::file_size(file) == 0);
}
