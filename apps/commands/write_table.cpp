// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/write_table.hpp"

#include <stdlib.h>

#include "apps/output/csv_table.hpp"
#include "apps/output/csvw_metadata.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

/// A new folder among the temporary files; empty when there is none to be had.
fs::path refuge() {
  std::error_code error;
  const fs::path temporary = fs::temp_directory_path(error);
  std::string pattern = (temporary / "coilpull-XXXXXX").string();
  return error || ::mkdtemp(pattern.data()) == nullptr ? fs::path() : fs::path(pattern);
}

}  // namespace

std::vector<fs::path> write_table(const fs::path& folder, const std::string& name, const ForceTable& table,
                                  const DeviceFile& file, const std::vector<std::string>& command) {
  const std::string csv = csv_text(table);
  const std::string metadata = csvw_metadata(table, {command, {origin_of(file)}, {}}, name, csv);
  const auto write_into = [&](const fs::path& where) {
    const std::vector<fs::path> written = {where / name, where / (name + "-metadata.json")};
    write_safely(written[0], csv);
    write_safely(written[1], metadata);
    return written;
  };
  try {
    prepare_folder(folder);
    return write_into(folder);
  } catch (const CannotWrite& refused) {
    const fs::path elsewhere = refuge();
    if (elsewhere.empty()) throw;
    fs::path saved;
    try {
      saved = write_into(elsewhere).front();
    } catch (const CannotWrite&) {
      std::error_code ignored;
      fs::remove_all(elsewhere, ignored);
      throw refused;
    }
    throw CannotWrite(std::string(refused.what()) + "\n  The table was saved as " + saved.string() + ".");
  }
}

}  // namespace coilpull
