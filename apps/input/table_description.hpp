// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace coilpull {

/// What force_table.csv-metadata.json says of its table that is of use later; empty or 0: it does not say.
struct TableDescription {
  std::string title;    ///< of the device
  std::string made_by;  ///< "coilpull 0.1.0"
  std::string input;    ///< name of the device file and its hash
  int order = 0;        ///< polynomial order of the published values, 3 to 6
};

/// Never throws: the file may be anybody's, and a table is read without it too. What is no description at all
/// says nothing, a title longer than a device file may have (200 letters of four bytes) is left out.
TableDescription read_table_description(std::string_view json);

}  // namespace coilpull
