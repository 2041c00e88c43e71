// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/measuring_verbs.hpp"

#include <memory>

#include "apps/commands/bench.hpp"
#include "apps/commands/calibrate.hpp"
#include "apps/commands/first_help.hpp"
#include "apps/commands/judge.hpp"
#include "apps/commands/validate.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

void add_validate(CLI::App& app, ExitCode& code) {
  const auto validation = std::make_shared<ValidateOptions>();
  CLI::App* validate_verb =
      app.add_subcommand("validate", "recompute published and exact cases; one page and CSV");
  validate_verb->add_option("-o", validation->folder, "folder for the page; default: validation_out");
  validate_verb->add_flag("--quick", validation->quick, "only the cases that take seconds");
  validate_verb->footer(validate_help);
  validate_verb->callback([=, &code] {
    validation->command = command_of(*validate_verb);
    code = run_validate(*validation);
  });
}

void add_judge(CLI::App& app, ExitCode& code) {
  const auto judge = std::make_shared<JudgeOptions>();
  CLI::App* judge_verb = app.add_subcommand("judge", "lay your own forces over a table");
  judge_verb->add_option("TABLE", judge->table_file, "force_table.csv")->required();
  judge_verb->add_option("MINE", judge->mine_file, "displacement, current, force as CSV")->required();
  add_results_folder(*judge_verb, judge->folder, "<stem of MINE>");
  judge_verb->footer(judge_help);
  judge_verb->callback([=, &code] {
    judge->command = command_of(*judge_verb);
    code = run_judge(*judge);
  });
}

void add_bench(CLI::App& app, ExitCode& code) {
  const auto bench = std::make_shared<BenchOptions>();
  CLI::App* bench_verb = app.add_subcommand("bench", "what meter, field probe and scale should read");
  add_device_file(*bench_verb, bench->device_file);
  add_results_folder(*bench_verb, bench->folder);
  add_threads(*bench_verb, bench->threads);
  bench_verb->footer(bench_help);
  bench_verb->callback([=, &code] {
    bench->command = command_of(*bench_verb);
    code = run_bench(*bench);
  });
}

void add_calibrate(CLI::App& app, ExitCode& code) {
  const auto calibrate = std::make_shared<CalibrateOptions>();
  CLI::App* calibrate_verb = app.add_subcommand("calibrate", "fit numbers of the device to measurements");
  add_device_file(*calibrate_verb, calibrate->device_file);
  calibrate_verb
      ->add_option("MEASURED", calibrate->measured_file,
                   "displacement, current, and force, B_z or inductance")
      ->required();
  calibrate_verb
      ->add_option("--fit", calibrate->fit,
                   "remanence[=MAGNET], offset or saturation[=CORE]; may be repeated")
      ->required()
      ->allow_extra_args(false);
  add_results_folder(*calibrate_verb, calibrate->folder);
  add_threads(*calibrate_verb, calibrate->threads);
  calibrate_verb->footer(calibrate_help);
  calibrate_verb->callback([=, &code] {
    calibrate->command = command_of(*calibrate_verb);
    code = run_calibrate(*calibrate);
  });
}

}  // namespace

void add_measuring_verbs(CLI::App& app, ExitCode& code) {
  for (const auto add : {add_validate, add_judge, add_bench, add_calibrate}) add(app, code);
}

}  // namespace coilpull
