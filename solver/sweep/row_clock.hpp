// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Processor time that this thread has spent since a start: a machine under load, or a run that was halted
/// for a night, takes none from a row.
class RowClock {
public:
  /// @param limit_s  at most so much for a row [s of processor time]
  explicit RowClock(double limit_s) : limit_s_(limit_s) {}
  void start();
  bool out_of_time() const;

private:
  double limit_s_, started_s_ = 0;
};

}  // namespace coilpull
