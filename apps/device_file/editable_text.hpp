// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace coilpull {

/// The text of a device file in which values can be replaced by their key paths, everything else left as it
/// is, so that messages about the changed text name the lines of the file.
class EditableText {
public:
  /// @throws BadDevice  when the text is no TOML
  EditableText(std::string text, std::string file_name);

  const std::string& file_name() const { return file_name_; }
  bool has(const std::string& path) const { return places_.count(path) > 0; }
  std::vector<std::string> paths() const;  ///< "core.sleeve.tube.outer_radius_mm", of everything with a value

  /// The value at the path in these new values or, if it is not among them, in the text; nothing when it is
  /// no single number.
  std::optional<double> number(const std::string& path,
                               const std::map<std::string, std::string>& new_values) const;

  /// @param new_values  TOML by path. None stands inside another. @throws std::logic_error  no such path
  std::string with(const std::map<std::string, std::string>& new_values) const;

private:
  struct Stretch {
    std::size_t from, to;  ///< bytes of the value
  };
  std::string text_, file_name_;
  std::map<std::string, Stretch> places_;
};

}  // namespace coilpull
