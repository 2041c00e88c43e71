// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/choosing_verbs.hpp"

#include <memory>

#include "apps/commands/compare.hpp"
#include "apps/commands/first_help.hpp"
#include "apps/commands/remanence.hpp"
#include "apps/commands/wires.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

void add_compare(CLI::App& app, ExitCode& code) {
  const auto compare = std::make_shared<CompareOptions>();
  CLI::App* compare_verb =
      app.add_subcommand("compare", "one device in several materials, or several devices");
  compare_verb->add_option("FILES", compare->device_files, "device files (TOML)")->required();
  compare_verb
      ->add_option("--with", compare->changes, "PART=MATERIAL, PART=none, all=MATERIAL; may be repeated")
      ->allow_extra_args(false);
  add_results_folder(*compare_verb, compare->folder, "<stem of the first>");
  add_threads(*compare_verb, compare->threads);
  compare_verb->add_flag("--quiet", compare->quiet, "no progress");
  compare_verb->footer(compare_help);
  compare_verb->callback([=, &code] {
    compare->command = command_of(*compare_verb);
    code = run_compare(*compare);
  });
}

void add_remanence(CLI::App& app, ExitCode& code) {
  const auto remanence = std::make_shared<RemanenceOptions>();
  CLI::App* remanence_verb =
      app.add_subcommand("remanence", "what cores that stay magnetised do, as a bracket");
  add_device_file(*remanence_verb, remanence->device_file);
  add_results_folder(*remanence_verb, remanence->folder);
  add_threads(*remanence_verb, remanence->threads);
  remanence_verb->footer(remanence_help);
  remanence_verb->callback([=, &code] {
    remanence->command = command_of(*remanence_verb);
    code = run_remanence(*remanence);
  });
}

void add_wires(CLI::App& app, ExitCode& code) {
  const auto wires = std::make_shared<WiresOptions>();
  CLI::App* wires_verb = app.add_subcommand("wires", "which wire, for a stated supply, by a solved table");
  add_device_file(*wires_verb, wires->device_file);
  wires_verb->add_option("--volts", wires->supply_V, "of the supply")->required()->check(above_zero());
  wires_verb->add_option("--ohms", wires->source_ohm, "of supply, switch and leads; default 0")
      ->check(number_within(0, 1e6));
  wires_verb->add_option("--pulse-ms", wires->pulse_ms, "how long a pulse lasts; default 10")
      ->check(above_zero());
  wires_verb->add_option("--coil", wires->coil, "which coil; default: the only one");
  wires_verb->add_option("--table", wires->table_file, "default: <file stem>_out/force_table.csv");
  wires_verb->add_option("--metal", wires->metal, "copper or aluminium; default: the coil's");
  wires_verb->add_option("--insulation", wires->insulation, "grade 1 or grade 2; default grade 2");
  wires_verb->add_flag("--awg", wires->by_gauge, "sizes by gauge instead of IEC 60317");
  wires_verb->add_option("-o", wires->folder, "folder of wires.csv; default: <file stem>_out");
  wires_verb->footer(wires_help);
  wires_verb->callback([=, &code] {
    wires->command = command_of(*wires_verb);
    code = run_wires(*wires);
  });
}

}  // namespace

void add_choosing_verbs(CLI::App& app, ExitCode& code) {
  for (const auto add : {add_compare, add_remanence, add_wires}) add(app, code);
}

}  // namespace coilpull
