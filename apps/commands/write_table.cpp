// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/write_table.hpp"

#include <fstream>
#include <sstream>

#include "apps/output/csv_table.hpp"
#include "apps/output/csvw_metadata.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {

namespace fs = std::filesystem;

std::vector<fs::path> write_table(const fs::path& folder, const std::string& name, const ForceTable& table,
                                  const fs::path& device_file, const std::string& title) {
  std::ifstream in(device_file, std::ios::binary);
  std::ostringstream content;
  content << in.rdbuf();
  const Origin origin{title, device_file.filename().string(), content.str()};
  const std::vector<fs::path> written = {folder / name, folder / (name + "-metadata.json")};
  write_safely(written[0], csv_text(table));
  write_safely(written[1], csvw_metadata(table, origin, name));
  return written;
}

}  // namespace coilpull
