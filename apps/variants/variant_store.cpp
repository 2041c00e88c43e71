// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/variant_store.hpp"

#include <sqlite3.h>

#include <cstdint>
#include <functional>

#include "apps/device_file/bad_device.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {
namespace {

constexpr int format = 2;              // PRAGMA user_version
constexpr int our_files = 0x434f494c;  // PRAGMA application_id: "COIL"

// Figures are rows of their own, so that any SQL tool can ask for them.
const char* const schema =
    "PRAGMA application_id = 1129269580; PRAGMA user_version = 2;"
    "CREATE TABLE result (key TEXT PRIMARY KEY, status TEXT NOT NULL, why TEXT NOT NULL, device TEXT NOT "
    "NULL,"
    " force_table TEXT NOT NULL) WITHOUT ROWID;"
    "CREATE TABLE figure (key TEXT NOT NULL REFERENCES result(key), name TEXT NOT NULL, value REAL NOT NULL,"
    " bar REAL NOT NULL, PRIMARY KEY (key, name)) WITHOUT ROWID;"
    "CREATE TABLE stroke (key TEXT PRIMARY KEY, result TEXT NOT NULL REFERENCES result(key),"
    " no_exit TEXT NOT NULL) WITHOUT ROWID;"
    "CREATE TABLE stroke_figure (key TEXT NOT NULL REFERENCES stroke(key), name TEXT NOT NULL,"
    " value REAL NOT NULL, bar REAL NOT NULL, PRIMARY KEY (key, name)) WITHOUT ROWID;";

}  // namespace

/// The open file; every failure leaves as an exception with its name.
struct VariantStore::Connection {
  std::string name;
  sqlite3* handle = nullptr;

  Connection() = default;
  ~Connection() { sqlite3_close(handle); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  [[noreturn]] void fail(int code) const {
    if (code == SQLITE_NOTADB)
      throw BadDevice(name + ": is no store of variants.\n  Name another file or folder.");
    if (code == SQLITE_CORRUPT)
      throw BadDevice(name + ": is damaged.\n  Name another file or folder, or solve again.");
    if (code == SQLITE_BUSY)
      throw CannotWrite("cannot write " + name +
                        ": another run holds it\n  Wait for it, or give each run its own "
                        "folder and --shard, and merge.");
    throw CannotWrite("cannot write " + name + ": " + sqlite3_errmsg(handle));
  }

  void run(const std::string& sql) {
    const int code = sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) fail(code);
  }
};

namespace {

/// One prepared statement, bound from left to right.
class Statement {
public:
  template <class Connection>
  Statement(const Connection& db, const char* sql) : fail_([&db](int code) { db.fail(code); }) {
    check(sqlite3_prepare_v2(db.handle, sql, -1, &handle_, nullptr));
  }
  ~Statement() { sqlite3_finalize(handle_); }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  Statement& bind(const std::string& text) {
    check(sqlite3_bind_text(handle_, ++bound_, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT));
    return *this;
  }
  Statement& bind(double number) {
    check(sqlite3_bind_double(handle_, ++bound_, number));
    return *this;
  }
  bool step() {  ///< true: a row is there
    const int code = sqlite3_step(handle_);
    if (code != SQLITE_ROW && code != SQLITE_DONE) fail_(code);
    return code == SQLITE_ROW;
  }
  std::string text(int column) const {
    const auto* bytes = sqlite3_column_blob(handle_, column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_, column));
    return bytes == nullptr ? "" : std::string(static_cast<const char*>(bytes), size);
  }
  double number(int column) const { return sqlite3_column_double(handle_, column); }
  std::int64_t whole(int column) const { return sqlite3_column_int64(handle_, column); }

private:
  void check(int code) const {
    if (code != SQLITE_OK) fail_(code);
  }
  std::function<void(int)> fail_;
  sqlite3_stmt* handle_ = nullptr;
  int bound_ = 0;
};

template <class Connection>
std::int64_t asked(const Connection& db, const char* sql) {
  Statement statement(db, sql);
  return statement.step() ? statement.whole(0) : 0;
}

/// Whether the file holds our tables as we make them and nothing else: a view or a trigger of somebody else's
/// would be run by what we ask.
template <class Connection>
bool has_our_tables(const Connection& db) {
  Statement made(db, "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL");
  int tables = 0;
  for (; made.step(); ++tables)
    if (std::string(schema).find(made.text(0) + ";") == std::string::npos) return false;
  return tables == 4;
}

template <class Connection>
Figures figures_in(const Connection& db, const char* sql, const std::string& key) {
  Figures figures;
  Statement figure(db, sql);
  figure.bind(key);
  while (figure.step()) figures[figure.text(0)] = {figure.number(1), figure.number(2)};
  return figures;
}

template <class Connection>
void insert_figures(const Connection& db, const char* sql, const std::string& key, const Figures& figures) {
  for (const auto& [name, measured] : figures)
    Statement(db, sql).bind(key).bind(name).bind(measured.value).bind(measured.error).step();
}

}  // namespace

VariantStore::VariantStore(const std::filesystem::path& file) : db_(std::make_unique<Connection>()) {
  db_->name = file.string();
  const int code = sqlite3_open(db_->name.c_str(), &db_->handle);
  if (code != SQLITE_OK) db_->fail(code);
  // EXTRA: the folder's entry of the journal reaches the disk too, so that a commit outlives the supply
  db_->run("PRAGMA locking_mode = EXCLUSIVE; PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON;");
  db_->run("BEGIN EXCLUSIVE");
  const bool is_new = asked(*db_, "SELECT count(*) FROM sqlite_master") == 0;
  if (is_new) db_->run(schema);
  const bool ours = asked(*db_, "PRAGMA application_id") == our_files;
  const std::int64_t version = asked(*db_, "PRAGMA user_version");
  const bool unchanged = version != format || has_our_tables(*db_);
  db_->run("COMMIT");
  if (!ours || !unchanged) db_->fail(SQLITE_NOTADB);
  if (version != format)
    throw BadDevice(db_->name + ": is a store of format " + std::to_string(version) +
                    "; this program reads " + std::to_string(format) + ".\n  Choose another folder.");
}

VariantStore::~VariantStore() = default;
VariantStore::VariantStore(VariantStore&&) noexcept = default;

bool VariantStore::is_settled(const std::string& key) {
  return Statement(*db_, "SELECT 1 FROM result WHERE key = ? AND status <> 'meshing_failed'")
      .bind(key)
      .step();
}

std::size_t VariantStore::size() {
  return static_cast<std::size_t>(asked(*db_, "SELECT count(*) FROM result"));
}

std::optional<VariantResult> VariantStore::find(const std::string& key) {
  Statement row(*db_, "SELECT status, why, device, force_table FROM result WHERE key = ?");
  if (!row.bind(key).step()) return std::nullopt;
  return VariantResult{
      row.text(0), row.text(1), row.text(2), row.text(3),
      figures_in(*db_, "SELECT name, value, bar FROM figure WHERE key = ? ORDER BY name", key)};
}

bool VariantStore::has_stroke(const std::string& stroke_key) {
  return Statement(*db_, "SELECT 1 FROM stroke WHERE key = ?").bind(stroke_key).step();
}

std::optional<StrokeOutcome> VariantStore::find_stroke(const std::string& stroke_key) {
  Statement row(*db_, "SELECT no_exit FROM stroke WHERE key = ?");
  if (!row.bind(stroke_key).step()) return std::nullopt;
  return StrokeOutcome{
      row.text(0),
      figures_in(*db_, "SELECT name, value, bar FROM stroke_figure WHERE key = ? ORDER BY name", stroke_key)};
}

namespace {

/// All that is written while it lives counts only after commit().
template <class Connection>
class Transaction {
public:
  explicit Transaction(Connection& db) : db_(db) { db_.run("BEGIN"); }
  ~Transaction() {
    if (!done_) sqlite3_exec(db_.handle, "ROLLBACK", nullptr, nullptr, nullptr);
  }
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit() {
    db_.run("COMMIT");
    done_ = true;
  }

private:
  Connection& db_;
  bool done_ = false;
};

template <class Connection>
void insert(const Connection& db, const std::string& key, const VariantResult& result) {
  Statement(
      db,
      "DELETE FROM figure WHERE key IN (SELECT key FROM result WHERE key = ? AND status = 'meshing_failed')")
      .bind(key)
      .step();
  Statement(db, "DELETE FROM result WHERE key = ? AND status = 'meshing_failed'").bind(key).step();
  Statement(db, "INSERT INTO result VALUES (?, ?, ?, ?, ?)")
      .bind(key)
      .bind(result.status)
      .bind(result.why)
      .bind(result.canonical)
      .bind(result.table_csv)
      .step();
  insert_figures(db, "INSERT INTO figure VALUES (?, ?, ?, ?)", key, result.figures);
}

template <class Connection>
void insert_stroke(const Connection& db, const std::string& stroke_key, const std::string& key,
                   const StrokeOutcome& outcome) {
  Statement(db, "INSERT INTO stroke VALUES (?, ?, ?)")
      .bind(stroke_key)
      .bind(key)
      .bind(outcome.no_exit)
      .step();
  insert_figures(db, "INSERT INTO stroke_figure VALUES (?, ?, ?, ?)", stroke_key, outcome.figures);
}

bool same(const VariantResult& a, const VariantResult& b) {
  return a.status == b.status && a.why == b.why && a.table_csv == b.table_csv;
}

}  // namespace

void VariantStore::add(const std::string& key, const VariantResult& result) {
  Transaction transaction(*db_);
  insert(*db_, key, result);
  transaction.commit();
}

void VariantStore::add_stroke(const std::string& stroke_key, const std::string& key,
                              const StrokeOutcome& outcome) {
  Transaction transaction(*db_);
  insert_stroke(*db_, stroke_key, key, outcome);
  transaction.commit();
}

std::size_t VariantStore::merge_from(const std::filesystem::path& other) {
  if (!std::filesystem::is_regular_file(other)) refuse(Place{other.string()}, "there is no such file.");
  if (std::filesystem::file_size(other) == 0) refuse(Place{other.string()}, "is empty.");
  VariantStore source(other);
  Statement keys(*source.db_, "SELECT key FROM result ORDER BY key");
  std::size_t taken = 0;
  Transaction transaction(*db_);
  while (keys.step()) {
    const std::string key = keys.text(0);
    const std::optional<VariantResult> found = source.find(key);
    if (!found) source.db_->fail(SQLITE_CORRUPT);  // a key that is no text
    const VariantResult& result = *found;
    const bool settled = is_settled(key);
    if (!settled && !source.is_settled(key) && find(key)) continue;
    if (settled && source.is_settled(key) && !same(find(key).value(), result))
      throw BadDevice(
          other.string() + ": its result " + key.substr(0, 12) + " is not that of " + db_->name +
          ".\n  The same device gave two tables: the programs were built differently, for example for "
          "other processors. Build them alike, or merge into a new file.");
    if (settled) continue;
    insert(*db_, key, result);
    ++taken;
  }
  Statement strokes(*source.db_, "SELECT key, result FROM stroke ORDER BY key");
  while (strokes.step())
    if (const std::string key = strokes.text(0); !has_stroke(key)) {
      const std::optional<StrokeOutcome> outcome = source.find_stroke(key);
      if (!outcome) source.db_->fail(SQLITE_CORRUPT);
      insert_stroke(*db_, key, strokes.text(1), *outcome);
    }
  transaction.commit();
  return taken;
}

}  // namespace coilpull
