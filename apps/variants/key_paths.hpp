// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/device_file/editable_text.hpp"
#include "apps/device_file/table.hpp"

namespace coilpull {

/// One key of the device file that a variants file names, and what stands behind it.
struct KeyPath {
  std::string path;  ///< with dots: coil.drive.turns
  Value value;
};

/// Reads the tables of a variants file whose keys are those of a device file, each in one place only.
class KeyPaths {
public:
  /// Both have to live as long.
  KeyPaths(const Table& root, const EditableText& device) : root_(root), device_(device) {}

  enum class Again { no, yes };  ///< whether a path may stand elsewhere too

  /// The key paths of one table, in file order; keys with dots and headers with dots come to the same.
  /// `own`: keys of the table that are no paths.
  /// @throws BadDevice  no table; a key that the device file has not; one that stands elsewhere already
  std::vector<KeyPath> of(const Value& table, const std::vector<std::string>& own = {},
                          Again again = Again::no);

  /// @throws BadDevice  the device file has no such key; `also`: names to suggest beside its own
  void need_in_device(const std::string& path, const Place& place, std::vector<std::string> also) const;

private:
  void enter(const KeyPath& key, Again again);

  const Table& root_;
  const EditableText& device_;
  std::vector<KeyPath> entered_;
};

}  // namespace coilpull
