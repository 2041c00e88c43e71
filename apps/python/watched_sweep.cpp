// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/python/watched_sweep.hpp"

#include <atomic>
#include <chrono>
#include <future>

namespace coilpull {
namespace {

namespace py = pybind11;

/// What the workers and the thread that holds Python tell one another.
struct Watch {
  std::atomic<std::size_t> done{0}, rows{0};
  std::atomic<bool> stop{false};
};

void tell(const Watch& watch, std::size_t& told, const py::object& progress) {
  const std::size_t done = watch.done;
  if (progress.is_none() || done == told) return;
  told = done;
  progress(done, watch.rows.load());
}

}  // namespace

ForceTable watched_sweep(const DeviceFile& file, SweepOptions options, const py::object& progress) {
  Watch watch;
  options.on_progress = [&watch](std::size_t done, std::size_t rows) {
    watch.rows = rows;
    watch.done = done;
  };
  options.stop_requested = [&watch] { return watch.stop.load(); };
  std::future<ForceTable> sweeping =
      std::async(std::launch::async, [&] { return sweep(file.device, options); });
  std::size_t told = 0;
  const auto finished = [&] {
    const py::gil_scoped_release others_may_run;
    return sweeping.wait_for(std::chrono::milliseconds(100)) == std::future_status::ready;
  };
  try {
    while (!finished()) {
      if (PyErr_CheckSignals() != 0) throw py::error_already_set();
      tell(watch, told, progress);
    }
    tell(watch, told, progress);
  } catch (...) {
    watch.stop = true;
    const py::gil_scoped_release others_may_run;
    sweeping.wait();
    throw;
  }
  try {
    return sweeping.get();
  } catch (const BadSection& trouble) {
    throw BadDevice(explain(trouble, file));
  }
}

}  // namespace coilpull
