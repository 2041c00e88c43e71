// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/solve_variants.hpp"

#include <memory>
#include <mutex>
#include <optional>
#include <set>

#include "apps/output/csv_table.hpp"
#include "apps/variants/jobs.hpp"
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
  Jobs jobs(due.size(), options.jobs, options.stop_requested);
  std::mutex mutex;
  std::size_t done = 0;
  const auto tell = [&](const Variant& variant, bool begins) {
    if (options.on_variant) options.on_variant(variant, begins);
  };
  const auto begin = [&](const Variant& variant) {
    const std::lock_guard<std::mutex> lock(mutex);
    tell(variant, true);
  };
  const auto keep = [&](const Variant& variant, const VariantResult& result) {
    const std::lock_guard<std::mutex> lock(mutex);
    store.add(variant.key, result);
    ++done;
    tell(variant, false);
    if (options.on_progress) options.on_progress(done, due.size());
  };
  jobs.run([&]() -> Jobs::Worker {
    const auto crew = std::make_shared<Crew>(1, MesherOptions{});
    return [&, crew](std::size_t k) {
      begin(*due[k]);
      if (const auto result = solve_variant(*due[k], *crew, [&] { return jobs.stopped(); }))
        keep(*due[k], *result);
    };
  });
  return done;
}

}  // namespace coilpull
