// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/variants.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iostream>
#include <set>

#include "apps/commands/progress.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/stop_signal.hpp"
#include "apps/commands/write_device.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/input/force_table_file.hpp"
#include "apps/output/improved_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sha256.hpp"
#include "apps/output/variants_csv.hpp"
#include "apps/output/variants_picture.hpp"
#include "apps/output/variants_text.hpp"
#include "apps/variants/answers.hpp"
#include "apps/variants/figure_slopes.hpp"
#include "apps/variants/improve.hpp"
#include "apps/variants/solve_variants.hpp"
#include "apps/variants/stroke_use.hpp"

namespace coilpull {
namespace {

using Paths = std::vector<std::filesystem::path>;

constexpr std::size_t most_failures_told = 5;

const char* const strokes_note =
    "\nStrokes are run from statics, their bars know those of the force only. coilpull stroke of best.toml "
    "with the "
    "same\noptions tells how far that holds: eddy currents, --spread.\n";

std::vector<const Variant*> part_of(const VariantPlan& plan, const Shard& shard) {
  std::vector<const Variant*> part;
  for (std::size_t k = shard.number - 1; k < plan.variants.size(); k += shard.count)
    part.push_back(&plan.variants[k]);
  return part;
}

ProgressStyle style_of(const VariantsOptions& options) {
  return options.quiet || options.each ? ProgressStyle::silent : style_for_stderr();
}

SolveVariantsOptions solving_with(const VariantsOptions& options, Progress& progress) {
  SolveVariantsOptions solving;
  solving.jobs = options.jobs;
  solving.stop_requested = stop_was_asked;
  solving.on_progress = [&](std::size_t done, std::size_t of) { progress.show(done, of); };
  return solving;
}

void solve_and_tell(const std::vector<const Variant*>& variants, VariantStore& store,
                    const VariantsOptions& options) {
  Progress progress(std::cerr, style_of(options), "variants");
  SolveVariantsOptions solving = solving_with(options, progress);
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
std::string failures_text(const std::vector<const Variant*>& variants, const VariantResults& results) {
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

/// Whose stroke has no exit, the first few with their reasons.
std::string no_exits_text(const std::vector<const Variant*>& variants, const VariantResults& results) {
  std::string text;
  std::size_t count = 0;
  for (std::size_t k = 0; k < variants.size(); ++k) {
    if (!results[k] || results[k]->no_exit.empty() || ++count > most_failures_told) continue;
    text += "  variant " + std::to_string(variants[k]->number) + ": " + results[k]->no_exit + "\n";
  }
  if (count > most_failures_told) text += "  and " + std::to_string(count - most_failures_told) + " more\n";
  return count == 0 ? "" : std::to_string(count) + " variants have no exit:\n" + text;
}

ExitCode code_for(const VariantResults& results) {
  ExitCode code = exit_good;
  for (const auto& result : results) {
    if (!result) return exit_stopped;
    if (result->status != "ok") code = exit_row_not_ok;
  }
  return code;
}

/// Number of the set of currents in which the force of a table is strongest.
std::size_t strongest_set(const ForceTableFile& table) {
  std::size_t strongest = 0;
  double most = -1;
  for (std::size_t i = 0; i < table.displacements.size(); ++i)
    for (std::size_t set = 0; set < table.currents_A.size(); ++set)
      if (const double force = std::abs(table.at(i, set).force_N); force > most)
        most = force, strongest = set;
  return strongest;
}

/// The best of the first goal: its device, and the force along its stroke in the band of its tolerances.
void write_best(const std::filesystem::path& folder, const VariantPlan& plan, const VariantResults& results,
                std::size_t best, Paths& written) {
  const Variant& variant = plan.variants[best];
  const Paths described = write_device(folder, "best.toml", device_of(variant));
  written.insert(written.end(), described.begin(), described.end());
  const ForceTableFile table = read_force_table(read_csv_text(results[best]->table_csv, "stored table"));
  const std::vector<ForceBandRow> band = force_band(variant, strongest_set(table), plan, results);
  if (band.empty()) return;
  write_safely(folder / "tolerance_band.csv", band_csv(band));
  written.push_back(folder / "tolerance_band.csv");
  const std::string title = "Variant " + std::to_string(variant.number) + " within its tolerances";
  for (const auto& picture : write_picture(draw(band_picture(band, title)), folder, "tolerance_band", title))
    written.push_back(picture);
}

Paths write_answers(const std::filesystem::path& folder, const VariantsFile& file, const VariantPlan& plan,
                    const VariantResults& results, const Answers& answers) {
  Paths written = {folder / "variants.csv"};
  write_safely(written.front(), variants_csv(plan, results));
  if (file.goals.empty() || answers.within.empty()) return written;
  write_safely(folder / "pareto.csv", pareto_csv(file, plan, results, answers));
  write_safely(folder / "main_effects.csv", main_effects_csv(file, answers));
  written.insert(written.end(), {folder / "pareto.csv", folder / "main_effects.csv"});
  if (file.goals.size() > 1)
    for (const auto& picture : write_picture(draw(goals_picture(file, plan, results, answers)), folder,
                                             "goals", "Variants by their goals"))
      written.push_back(picture);
  write_best(folder, plan, results, answers.ranked.front().front(), written);
  return written;
}

/// At the best of the first goal, how that goal answers to every number with a range, by the adjoint.
BestSlopes slopes_at_best(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                          const Answers& answers) {
  const std::vector<NumberRange> ranges = ranges_of(file);
  if (file.goals.empty() || answers.within.empty() || ranges.empty()) return {};
  const std::size_t best = answers.ranked.front().front();
  const auto numbers = numbers_of(plan, ranges, plan.variants[best]);
  Mesher mesher;
  FigureSlopes slopes(file, plan, ranges, plan.variants[best], numbers, *results[best], mesher, {});
  return {plan.variants[best].number, ranges, slopes.of(file.goals.front().figure)};
}

/// Makes the best better where the file asks for it; one line a table unless quiet.
std::vector<Improvement> improve_and_tell(const VariantsFile& file, const VariantPlan& plan,
                                          const VariantResults& results, const Answers& answers,
                                          VariantStore& store, const VariantsOptions& options) {
  if (!file.improve || answers.within.empty()) return {};
  Progress progress(std::cerr, options.quiet ? ProgressStyle::silent : style_for_stderr(), "tables");
  ImproveOptions improving;
  std::size_t tables = 0;
  const std::size_t most = file.improve->tables * std::min(file.improve->starts, answers.within.size());
  improving.stop_requested = stop_was_asked;
  improving.on_table = [&](std::size_t, const VariantResult&) { progress.show(++tables, most); };
  std::vector<Improvement> all = improve(file, plan, results, answers.ranked.front(), store, improving);
  progress.end();
  return all;
}

/// improved.csv, and the device of the best of all.
void write_improved(const std::filesystem::path& folder, const VariantsFile& file, const VariantPlan& plan,
                    const std::vector<Improvement>& all, Paths& written) {
  if (all.empty()) return;
  write_safely(folder / "improved.csv", improved_csv(file, plan, all));
  written.push_back(folder / "improved.csv");
  const Paths described = write_device(folder, "improved.toml", device_of(all[best_of(file, all)].best));
  written.insert(written.end(), described.begin(), described.end());
}

/// A store that was read, as descriptions of results name it.
InputFile input_store(const std::filesystem::path& store) {
  const Place place{store.string()};
  if (!std::filesystem::is_regular_file(store)) refuse(place, "there is no such file.");
  const std::optional<std::string> hash = sha256_of_file(store);
  if (!hash) refuse(place, "cannot be read.");
  return input_file(store.string(), *hash);
}

/// variants.db-metadata.json: how the store came about, without its hash, since it grows with every run.
void describe_store(const std::filesystem::path& store, const RunOrigin& run) {
  Paths none;
  write_manifest(store.parent_path(), store.filename().string(), run, none);
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
  refuse_link(folder / "variants.db");
  VariantStore store(folder / "variants.db");
  const std::vector<const Variant*> variants = part_of(plan, options.shard);
  solve_and_tell(variants, store, options);
  if (file.stroke) {
    Progress progress(std::cerr, style_of(options), "strokes");
    run_strokes(variants, *file.stroke, store, solving_with(options, progress));
    progress.end();
  }
  VariantResults results;
  for (const Variant* variant : variants) results.push_back(stored_result(store, *variant));
  const ExitCode code = code_for(results);
  (options.quiet ? std::cerr : std::cout)
      << failures_text(variants, results) << no_exits_text(variants, results) << std::flush;
  RunOrigin run{options.command, {plan.drawn}, {input_file(file.file_name, file.sha256)}};
  run.files.insert(run.files.end(), plan.materials.begin(), plan.materials.end());
  if (options.shard.count > 1) {
    describe_store(folder / "variants.db", run);
    if (!options.quiet)
      std::cout << "A part of the whole is solved. When all are: coilpull variants merge */variants.db -o "
                   "DIR/variants.db,\n"
                   "then coilpull variants "
                << options.file.string() << " -o DIR for the answers.\n";
    return code;
  }
  const Answers answers = answers_of(file, plan, results);
  Paths written = write_answers(folder, file, plan, results, answers);
  const std::vector<Improvement> improved = improve_and_tell(file, plan, results, answers, store, options);
  write_improved(folder, file, plan, improved, written);
  write_manifest(folder, "variants.csv", run, written);
  if (!options.quiet)
    std::cout << answers_text(file, plan, results, answers)
              << slopes_text(file, slopes_at_best(file, plan, results, answers))
              << improved_text(file, plan, results, improved) << (file.stroke ? strokes_note : "") << "\n"
              << written_text(written) << std::flush;
  return stop_was_asked() ? exit_stopped : code;
}

ExitCode run_variants_merge(const std::vector<std::filesystem::path>& stores,
                            const std::filesystem::path& into, const std::vector<std::string>& command) {
  if (into.has_parent_path()) prepare_folder(into.parent_path());
  RunOrigin run{command, {}, {}};
  std::vector<std::filesystem::path> others = stores;
  if (std::filesystem::is_regular_file(into)) {  // its results stay; */variants.db names it a second time
    run.files.push_back(input_store(into));
    const auto is_into = [&](const auto& other) {
      std::error_code none;
      return std::filesystem::equivalent(other, into, none);
    };
    others.erase(std::remove_if(others.begin(), others.end(), is_into), others.end());
  }
  for (const std::filesystem::path& other : others) run.files.push_back(input_store(other));
  VariantStore store(into);
  for (const std::filesystem::path& other : others) {
    const std::size_t taken = store.merge_from(other);
    std::cout << other.string() << ": " << taken << " results taken over\n";
  }
  describe_store(into, run);
  std::cout << into.string() << " holds " << store.size() << " results\n";
  return exit_good;
}

}  // namespace coilpull
