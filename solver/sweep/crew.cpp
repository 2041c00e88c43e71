// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/crew.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>

namespace coilpull {

Crew::Crew(int threads, MesherOptions options)
    : most_(threads > 0 ? static_cast<std::size_t>(threads)
                        : std::max(1u, std::thread::hardware_concurrency())),
      options_(std::move(options)) {}

void Crew::run(std::size_t count, const std::function<void(std::size_t, Mesher&)>& job) {
  const std::size_t wanted = std::min(most_, count);
  while (meshers_.size() < wanted) {
    meshers_.emplace_back(options_);
    meshers_.back().start();
  }
  std::atomic<std::size_t> next{0};
  std::mutex mutex;
  std::exception_ptr trouble;
  const auto work = [&](Mesher& mesher) {
    try {
      for (std::size_t k = next++; k < count; k = next++) job(k, mesher);
    } catch (...) {
      const std::lock_guard<std::mutex> lock(mutex);
      if (!trouble) trouble = std::current_exception();
    }
  };
  std::vector<std::thread> threads;
  try {
    for (std::size_t i = 1; i < wanted; ++i) threads.emplace_back(work, std::ref(meshers_[i]));
  } catch (const std::exception&) {  // no more threads, no memory: those that run do it all
  }
  if (wanted > 0) work(meshers_[0]);
  for (std::thread& thread : threads) thread.join();
  if (trouble) std::rethrow_exception(trouble);
}

}  // namespace coilpull
