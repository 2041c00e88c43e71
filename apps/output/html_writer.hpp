// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace coilpull {

/// Words as they may stand between tags and in a quoted attribute: valid UTF-8, & < > " ' as entities.
std::string html_text(const std::string& words);

using HtmlAttributes = std::vector<std::pair<std::string, std::string>>;

/// Writes HTML piece by piece. Tag and attribute names are ours; every text and attribute value is escaped,
/// so that no name in a file can become a tag.
class HtmlWriter {
public:
  void open(const std::string& tag, const HtmlAttributes& attributes = {});
  void close();  ///< the tag opened last. @throws std::logic_error  none is open
  void text(const std::string& words);
  void element(const std::string& tag, const std::string& words, const HtmlAttributes& attributes = {});
  void single(const std::string& tag, const HtmlAttributes& attributes);  ///< without an end: meta, img
  void style(const std::string& css);  ///< our own, written as it is. @throws std::logic_error  has a <
  /// A script, or data of another type for one. @throws std::logic_error  has an end of a script or a comment
  void script(std::string_view code, const HtmlAttributes& attributes = {});

  /// A whole document of this language. @throws std::logic_error  a tag is still open
  std::string document(const std::string& language) const;

private:
  void start(const std::string& tag, const HtmlAttributes& attributes);
  std::string body_;
  std::vector<std::string> open_;
};

}  // namespace coilpull
