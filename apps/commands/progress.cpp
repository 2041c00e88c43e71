// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/progress.hpp"

#include <unistd.h>

#include <cmath>
#include <ostream>
#include <string>

namespace coilpull {
namespace {

constexpr std::size_t bar_width = 30;
constexpr std::chrono::milliseconds between_drawings{100};

/// "40 s", "3 min", "2.5 h" of what is left, at the pace so far.
std::string time_left(double seconds_gone, std::size_t rows_done, std::size_t rows) {
  const double left = seconds_gone * static_cast<double>(rows - rows_done) / static_cast<double>(rows_done);
  if (left < 90) return std::to_string(std::lround(left)) + " s";
  if (left < 5400) return std::to_string(std::lround(left / 60)) + " min";
  return std::to_string(std::lround(left / 3600)) + " h";
}

}  // namespace

ProgressStyle style_for_stderr() { return isatty(STDERR_FILENO) ? ProgressStyle::bar : ProgressStyle::lines; }

void Progress::show(std::size_t rows_done, std::size_t rows) {
  if (rows == 0 || style_ == ProgressStyle::silent) return;
  if (style_ == ProgressStyle::bar)
    draw_bar(rows_done, rows);
  else
    write_line(rows_done, rows);
}

void Progress::end() {
  if (line_open_) out_ << std::endl;
  line_open_ = false;
}

void Progress::draw_bar(std::size_t rows_done, std::size_t rows) {
  const Clock::time_point now = Clock::now();
  if (now - drawn_ < between_drawings && rows_done < rows) return;
  drawn_ = now;
  const std::size_t full = bar_width * rows_done / rows;
  out_ << "\r[" << std::string(full, '#') << std::string(bar_width - full, '.') << "] " << rows_done << " of "
       << rows << " " << things_;
  if (rows_done > 0 && rows_done < rows)
    out_ << ", " << time_left(std::chrono::duration<double>(now - started_).count(), rows_done, rows)
         << " left";
  out_ << "\033[K" << std::flush;  // clears what a longer text left behind
  line_open_ = true;
}

void Progress::write_line(std::size_t rows_done, std::size_t rows) {
  const std::size_t tenths = 10 * rows_done / rows;
  if (tenths <= tenths_told_ && rows_done != 1) return;
  tenths_told_ = tenths;
  out_ << rows_done << " of " << rows << " " << things_ << std::endl;
}

}  // namespace coilpull
