// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>

namespace coilpull {

/// Equal jobs, numbered from 0, on several threads until all are done or it is stopped.
class Jobs {
public:
  using Worker = std::function<void(std::size_t number)>;

  /// @param jobs  at once; 0: one a core. @param stop_requested  may be empty
  Jobs(std::size_t count, int jobs, std::function<bool()> stop_requested);

  /// Each thread makes itself a worker, which then takes one job after the other.
  /// @throws the first exception of a job, after all threads have ended
  void run(const std::function<Worker()>& make_worker);

  bool stopped() const { return failed_ || (stop_requested_ && stop_requested_()); }

private:
  void work(const std::function<Worker()>& make_worker);

  const std::size_t count_;
  const int jobs_;
  const std::function<bool()> stop_requested_;
  std::atomic<std::size_t> next_{0};
  std::atomic<bool> failed_{false};
  std::mutex mutex_;
  std::exception_ptr trouble_;
};

}  // namespace coilpull
