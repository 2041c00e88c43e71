// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/variants.hpp"

#include <cstdio>
#include <iostream>
#include <set>

#include "apps/commands/progress.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/stop_signal.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/variants_csv.hpp"
#include "apps/variants/solve_variants.hpp"

namespace coilpull {
namespace {

using Results = std::vector<std::optional<VariantResult>>;

constexpr std::size_t most_failures_told = 5;

std::vector<const Variant*> part_of(const VariantPlan& plan, const Shard& shard) {
  std::vector<const Variant*> part;
  for (std::size_t k = shard.number - 1; k < plan.variants.size(); k += shard.count)
    part.push_back(&plan.variants[k]);
  return part;
}

void solve_and_tell(const std::vector<const Variant*>& variants, VariantStore& store,
                    const VariantsOptions& options) {
  Progress progress(std::cerr, options.quiet || options.each ? ProgressStyle::silent : style_for_stderr(),
                    "variants");
  SolveVariantsOptions solving;
  solving.jobs = options.jobs;
  solving.stop_requested = stop_was_asked;
  solving.on_progress = [&](std::size_t done, std::size_t of) { progress.show(done, of); };
  if (options.each)
    solving.on_variant = [](const Variant& variant, bool begins) {
      std::cerr << (begins ? "begin " : "stored ") << variant.number << std::endl;
    };
  watch_for_stop();
  const std::size_t solved = solve_variants(variants, store, solving);
  progress.end();
  if (options.quiet) return;
  std::set<std::string> keys;
  for (const Variant* variant : variants) keys.insert(variant->key);
  std::cout << variants.size() << " variants, " << keys.size() << " different ones: " << solved
            << " solved now, the store holds " << store.size() << " results\n";
}

/// The first few that are not ok, with their reasons, and how many more there are.
std::string failures_text(const std::vector<const Variant*>& variants, const Results& results) {
  std::string text;
  std::size_t count = 0;
  for (std::size_t k = 0; k < variants.size(); ++k) {
    if (!results[k] || results[k]->status == "ok") continue;
    if (++count <= most_failures_told)
      text += "  variant " + std::to_string(variants[k]->number) + ": " + results[k]->status + ": " +
              results[k]->why + "\n";
  }
  if (count > most_failures_told)
    text += "  and " + std::to_string(count - most_failures_told) + " more; all are in variants.csv\n";
  return count == 0 ? "" : std::to_string(count) + " variants are not ok:\n" + text;
}

ExitCode code_for(const Results& results) {
  ExitCode code = exit_good;
  for (const auto& result : results) {
    if (!result) return exit_stopped;
    if (result->status != "ok") code = exit_row_not_ok;
  }
  return code;
}

}  // namespace

Shard shard_of(const std::string& words) {
  unsigned long number = 0, count = 0;
  int read = 0;
  const bool both = std::sscanf(words.c_str(), "%lu/%lu%n", &number, &count, &read) == 2;
  if (!both || static_cast<std::size_t>(read) != words.size() || number < 1 || number > count)
    throw BadDevice("--shard " + words +
                    ": is no part of a whole.\n  Write K/N with K from 1 to N, for example 3/8.");
  return {number, count};
}

ExitCode run_variants(const VariantsOptions& options) {
  const VariantsFile file = read_variants_file(options.file);
  const VariantPlan plan = plan_variants(file);
  const std::filesystem::path folder = results_folder(options.file, options.folder);
  VariantStore store(folder / "variants.db");
  const std::vector<const Variant*> variants = part_of(plan, options.shard);
  solve_and_tell(variants, store, options);
  Results results;
  for (const Variant* variant : variants) results.push_back(store.find(variant->key));
  const ExitCode code = code_for(results);
  (options.quiet ? std::cerr : std::cout) << failures_text(variants, results) << std::flush;
  if (options.shard.count > 1) {
    if (!options.quiet)
      std::cout << "A part of the whole is solved. When all are: coilpull variants merge */variants.db -o "
                   "DIR/variants.db,\n"
                   "then coilpull variants "
                << options.file.string() << " -o DIR for the answers.\n";
    return code;
  }
  std::vector<std::filesystem::path> written = {folder / "variants.csv"};
  write_safely(written.front(), variants_csv(plan, results));
  if (!options.quiet) std::cout << "\n" << written_text(written);
  return code;
}

ExitCode run_variants_merge(const std::vector<std::filesystem::path>& stores,
                            const std::filesystem::path& into) {
  if (into.has_parent_path()) prepare_folder(into.parent_path());
  VariantStore store(into);
  for (const std::filesystem::path& other : stores) {
    const std::size_t taken = store.merge_from(other);
    std::cout << other.string() << ": " << taken << " results taken over\n";
  }
  std::cout << into.string() << " holds " << store.size() << " results\n";
  return exit_good;
}

}  // namespace coilpull
