// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>

#include <chrono>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

#include "meshing/detail/protocol.hpp"

namespace coilpull::detail {

/// The worker could not be started, ended, or answered nonsense. What it says includes how the process ended.
struct WorkerFailed : std::runtime_error {
  using std::runtime_error::runtime_error;
};
struct WorkerTooSlow : WorkerFailed {
  using WorkerFailed::WorkerFailed;
};

/// A running worker, reached through a socket on its standard input and output. Starting does not wait for
/// it. Descriptors are closed in every other program this process starts; no signal reaches this process.
class WorkerProcess {
public:
  explicit WorkerProcess(const std::string& program);  ///< @throws WorkerFailed  when it cannot be started
  ~WorkerProcess();                                    ///< kills it: it holds nothing worth saving
  WorkerProcess(const WorkerProcess&) = delete;
  WorkerProcess& operator=(const WorkerProcess&) = delete;

  using Clock = std::chrono::steady_clock;

  /// Sends a request and waits for its reply. After any throw this object is of no further use.
  /// @throws WorkerFailed, WorkerTooSlow, BadFrame
  MeshReply ask(const MeshRequest& request, Clock::time_point until);

private:
  void send_all(const void* from, std::size_t size, Clock::time_point until);
  void receive_all(void* to, std::size_t size, Clock::time_point until);
  void wait_for(short event, Clock::time_point until);
  [[noreturn]] void fail_because_it_ended();
  std::string end_of_process();

  std::string program_;
  pid_t pid_ = -1;
  int socket_ = -1;
};

}  // namespace coilpull::detail
