// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "apps/variants/figures.hpp"

namespace coilpull {

/// What was found for one key of a plan. The same key always gives the same.
struct VariantResult {
  std::string status;     ///< "ok", the worst status of a row, or "refused"
  std::string why = {};   ///< when it is not ok
  std::string canonical;  ///< text of the device
  std::string table_csv;  ///< force_table.csv as a whole; empty when refused
  Figures figures = {};
  std::string no_exit = {};  ///< when a stroke is wanted and its exit is not known: why
};

/// What the stroke of a variant came to.
struct StrokeOutcome {
  std::string no_exit = {};  ///< why it has no exit, or could not be run
  Figures figures = {};
};

/// Results by key in one SQLite file. A result is written as a whole or not at all, and is on the disk when
/// add() returns: a killed program or a lost supply costs only what was being solved. One process at a time
/// holds a store; the lock ends with the process, however it ends. SQLite's header appears in
/// variant_store.cpp and nowhere else.
class VariantStore {
public:
  /// Opens the file, or makes it.
  /// @throws BadDevice    the file is no store, or one of another version of this program's stores
  /// @throws CannotWrite  it cannot be made or opened, or another process holds it
  explicit VariantStore(const std::filesystem::path& file);
  ~VariantStore();
  VariantStore(VariantStore&&) noexcept;

  /// There is a result, and solving again would not change it: `meshing_failed` may come of a loaded machine.
  bool is_settled(const std::string& key);
  std::optional<VariantResult> find(const std::string& key);
  std::size_t size();

  /// Replaces a result that is not settled. @throws CannotWrite  also when the key has a settled one
  void add(const std::string& key, const VariantResult& result);

  /// Takes over every result of another store that is not settled here, and its strokes. Returns how many
  /// results.
  /// @throws BadDevice  the other file is none, or both hold a key with different results
  std::size_t merge_from(const std::filesystem::path& other);

  /// Strokes are kept beside the tables that they were run from, by a key of their own.
  bool has_stroke(const std::string& stroke_key);
  std::optional<StrokeOutcome> find_stroke(const std::string& stroke_key);
  /// @param key  of the table, which is stored. @throws CannotWrite  also when the stroke is there already
  void add_stroke(const std::string& stroke_key, const std::string& key, const StrokeOutcome& outcome);

private:
  struct Connection;
  std::unique_ptr<Connection> db_;
};

}  // namespace coilpull
