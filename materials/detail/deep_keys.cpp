// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/deep_keys.hpp"

#include <algorithm>
#include <string>

namespace coilpull::detail {
namespace {

/// Walks over TOML 1.0 as far as strings, comments and the dots between the parts of a key go.
class Walk {
public:
  explicit Walk(std::string_view text) : text_(text) {}

  std::size_t line_of_deep_key() {
    std::size_t dots = 0;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '"' || c == '\'') {
        skip_string(c);
        continue;
      }
      if (c == '#') {
        at_ = text_.find('\n', at_);
        continue;
      }
      if (c == '.' && ++dots >= most_key_parts) return line_;
      if (std::string_view(",=[]{}\n").find(c) != std::string_view::npos) dots = 0;
      if (c == '\n') ++line_;
      ++at_;
    }
    return 0;
  }

private:
  /// A string that is not closed ends with its line; the reader refuses it there.
  void skip_string(char quote) {
    const std::string three(3, quote);
    const bool long_one = text_.substr(at_, 3) == three;
    at_ += long_one ? 3 : 1;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '\n' && !long_one) return;
      if (c == '\n') ++line_;
      if (long_one ? text_.substr(at_, 3) == three : c == quote) break;
      at_ += c == '\\' && quote == '"' && text_.substr(at_ + 1, 1) != "\n" ? 2 : 1;
    }
    at_ += long_one ? 3 : 1;
    at_ = std::min(at_, text_.size());
    for (int more = 0; long_one && more < 2 && text_.substr(at_, 1) == three.substr(0, 1); ++more)
      ++at_;  // """""
  }

  std::string_view text_;
  std::size_t at_ = 0, line_ = 1;
};

}  // namespace

std::size_t line_of_deep_key(std::string_view toml) { return Walk(toml).line_of_deep_key(); }

}  // namespace coilpull::detail
