// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstddef>
#include <iosfwd>
#include <string>
#include <utility>

namespace coilpull {

enum class ProgressStyle {
  silent,
  lines,  ///< a plain line at the first row and every tenth, for logs and pipes
  bar     ///< one line that is drawn over, with the time that is left, for a terminal
};

/// The style that suits standard error: a bar when it is a terminal, else lines.
ProgressStyle style_for_stderr();

/// Tells how far a run is. Calls come one at a time.
class Progress {
public:
  /// @param things  what is counted, for the words
  Progress(std::ostream& out, ProgressStyle style, std::string things = "rows")
      : out_(out), style_(style), things_(std::move(things)) {}
  void show(std::size_t rows_done, std::size_t rows);
  void end();  ///< leaves the line of the bar

private:
  using Clock = std::chrono::steady_clock;
  void draw_bar(std::size_t rows_done, std::size_t rows);
  void write_line(std::size_t rows_done, std::size_t rows);

  std::ostream& out_;
  ProgressStyle style_;
  std::string things_;
  Clock::time_point started_ = Clock::now();
  Clock::time_point drawn_ = {};
  std::size_t tenths_told_ = 0;
  bool line_open_ = false;
};

}  // namespace coilpull
