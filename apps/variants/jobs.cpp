// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/jobs.hpp"

#include <algorithm>
#include <thread>
#include <utility>
#include <vector>

namespace coilpull {

Jobs::Jobs(std::size_t count, int jobs, std::function<bool()> stop_requested)
    : count_(count), jobs_(jobs), stop_requested_(std::move(stop_requested)) {}

void Jobs::run(const std::function<Worker()>& make_worker) {
  const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
  const std::size_t at_once = std::min(count_, jobs_ > 0 ? static_cast<std::size_t>(jobs_) : cores);
  std::vector<std::thread> threads;
  try {
    for (std::size_t k = 1; k < at_once; ++k) threads.emplace_back([&] { work(make_worker); });
  } catch (const std::exception&) {  // no more threads, no memory: those that run do it all
  }
  if (at_once > 0) work(make_worker);
  for (std::thread& thread : threads) thread.join();
  if (trouble_) std::rethrow_exception(trouble_);
}

void Jobs::work(const std::function<Worker()>& make_worker) {
  try {
    const Worker worker = make_worker();
    for (std::size_t k = next_++; k < count_ && !stopped(); k = next_++) worker(k);
  } catch (...) {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (!trouble_) trouble_ = std::current_exception();
    failed_ = true;
  }
}

}  // namespace coilpull
