// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/solve_variants.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <optional>
#include <set>
#include <thread>

#include "apps/output/csv_table.hpp"
#include "solver/sweep/crew.hpp"
#include "solver/sweep/sweep.hpp"

namespace coilpull {
namespace {

/// The worst row speaks for the table; nothing: the run was stopped.
std::optional<VariantResult> result_of(const Device& device, const ForceTable& table, std::string canonical) {
  VariantResult result{word_for(RowStatus::ok), "", std::move(canonical), csv_text(table),
                       figures_of(device, table)};
  RowStatus worst = RowStatus::ok;
  for (const Measurement& row : table.rows) {
    if (row.status == RowStatus::stopped) return std::nullopt;
    if (row.status <= worst) continue;
    worst = row.status;
    result.status = word_for(row.status);
    result.why = row.why;
  }
  return result;
}

VariantResult refused(const Variant& variant, const std::string& why) {
  return {"refused", why, variant.canonical, "", {}};
}

class Run {
public:
  Run(std::vector<const Variant*> due, VariantStore& store, const SolveVariantsOptions& options)
      : due_(std::move(due)), store_(store), options_(options) {}

  std::size_t go() {
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    const std::size_t jobs =
        std::min(due_.size(), options_.jobs > 0 ? static_cast<std::size_t>(options_.jobs) : cores);
    std::vector<std::thread> threads;
    for (std::size_t k = 1; k < jobs; ++k) threads.emplace_back([this] { work(); });
    if (jobs > 0) work();
    for (std::thread& thread : threads) thread.join();
    if (trouble_) std::rethrow_exception(trouble_);
    return done_;
  }

private:
  bool stopped() const { return failed_ || (options_.stop_requested && options_.stop_requested()); }

  void work() {
    try {
      Crew crew(1, {});
      for (std::size_t k = next_++; k < due_.size() && !stopped(); k = next_++) {
        tell(*due_[k], true);
        if (const auto result = solve_variant(*due_[k], crew, [this] { return stopped(); }))
          keep(*due_[k], *result);
      }
    } catch (...) {
      const std::lock_guard<std::mutex> lock(mutex_);
      if (!trouble_) trouble_ = std::current_exception();
      failed_ = true;
    }
  }

  void tell(const Variant& variant, bool begins) {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (options_.on_variant) options_.on_variant(variant, begins);
  }

  void keep(const Variant& variant, const VariantResult& result) {
    const std::lock_guard<std::mutex> lock(mutex_);
    store_.add(variant.key, result);
    ++done_;
    if (options_.on_variant) options_.on_variant(variant, false);
    if (options_.on_progress) options_.on_progress(done_, due_.size());
  }

  const std::vector<const Variant*> due_;
  VariantStore& store_;
  const SolveVariantsOptions& options_;
  std::mutex mutex_;
  std::atomic<std::size_t> next_{0};
  std::atomic<bool> failed_{false};
  std::size_t done_ = 0;
  std::exception_ptr trouble_;
};

}  // namespace

std::optional<VariantResult> solve_variant(const Variant& variant, Crew& crew,
                                           const std::function<bool()>& stop_requested) {
  if (!variant.refusal.empty()) return refused(variant, variant.refusal);
  const DeviceFile file = device_of(variant);
  SweepOptions options;
  options.audit = false;
  options.crew = &crew;
  options.stop_requested = stop_requested;
  try {
    auto result = result_of(file.device, sweep(file.device, options), variant.canonical);
    if (result && result->status == word_for(RowStatus::meshing_failed))  // of time, perhaps: once more
      result = result_of(file.device, sweep(file.device, options), variant.canonical);
    return result;
  } catch (const BadSection& bad) {
    return refused(variant, explain(bad, file));
  }
}

std::size_t solve_variants(const std::vector<const Variant*>& variants, VariantStore& store,
                           const SolveVariantsOptions& options) {
  std::vector<const Variant*> due;
  std::set<std::string> seen;
  for (const Variant* variant : variants)
    if (seen.insert(variant->key).second && !store.is_settled(variant->key)) due.push_back(variant);
  return Run(std::move(due), store, options).go();
}

}  // namespace coilpull
