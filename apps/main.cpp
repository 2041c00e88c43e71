// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <csignal>
#include <iostream>
#include <memory>

#include "apps/calibration/fit_module.hpp"
#include "apps/commands/approximations.hpp"
#include "apps/commands/bench.hpp"
#include "apps/commands/calibrate.hpp"
#include "apps/commands/check.hpp"
#include "apps/commands/compare.hpp"
#include "apps/commands/field.hpp"
#include "apps/commands/first_help.hpp"
#include "apps/commands/judge.hpp"
#include "apps/commands/remanence.hpp"
#include "apps/commands/table.hpp"
#include "apps/commands/validate.hpp"
#include "apps/commands/variants.hpp"
#include "apps/commands/wires.hpp"
#include "apps/device_file/bad_device.hpp"
#include "apps/exchange/array_file.hpp"
#include "apps/input/bad_csv.hpp"
#include "apps/material_verbs.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/vtu_file.hpp"
#include "apps/shell_verbs.hpp"
#include "apps/workshop_verbs.hpp"
#include "materials/bad_material.hpp"

namespace {

using namespace coilpull;

// One function a verb: its words, and what it calls. Choices live as long as the verb that fills them.

const char* const half_words = "draw only the half above the axis";

void add_check(CLI::App& app, ExitCode& code) {
  struct Choice {
    std::filesystem::path file, folder;
    bool half = false;
  };
  const auto choice = std::make_shared<Choice>();
  CLI::App* check = app.add_subcommand("check", "tell what is in a device file; nothing is solved");
  check->add_option("FILE", choice->file, "device file (TOML)")->required();
  CLI::Option* draw = check->add_option("-o", choice->folder, "draw the device into this folder");
  check->add_flag("--half-section", choice->half, half_words);
  CLI::Option* canonical = check->add_flag(
      "--canonical", "print the same device in mm, radii, from and to, every default written out");
  canonical->excludes(draw);
  check->footer(check_help);
  check->callback([=, &code] {
    code = canonical->count() > 0
               ? run_check_canonical(choice->file)
               : run_check(choice->file, choice->folder, choice->half ? Halves::upper : Halves::both);
  });
}

void add_table(CLI::App& app, ExitCode& code) {
  const auto table = std::make_shared<TableOptions>();
  const auto half = std::make_shared<bool>(false);
  CLI::App* table_verb = app.add_subcommand("table", "force against displacement and current, as CSV");
  table_verb->add_option("FILE", table->device_file, "device file (TOML)")->required();
  table_verb->add_option("-o", table->folder, "folder for the results; default: <file stem>_out");
  table_verb->add_option("--threads", table->threads, "default: one a core")->check(CLI::Range(1, 1024));
  table_verb->add_flag("!--no-pictures", table->pictures.wanted, "write numbers only");
  table_verb->add_flag("--half-section", *half, half_words);
  table_verb->add_flag("--body-forces", table->bodies, "also the axial force on every body");
  table_verb->add_option("--approximation", table->approximations, "also the force by a closed formula")
      ->allow_extra_args(false)
      ->check(CLI::IsMember(names_of_approximations()));
  table_verb->add_flag("--slopes", table->slopes, "also dF/dz, dF/di and incremental inductances");
  table_verb->add_flag("!--no-audit", table->audit,
                       "no check of five rows against the energy of other meshes");
  table_verb->add_flag("--spread", table->spread,
                       "also the lowest and highest force that the ranges of the input leave");
  table_verb->add_flag("--vtu", table->vtu, "fields along the stroke for viewers, at the strongest current");
  table_verb->add_flag("--quiet", table->quiet, "no progress, no summary");
  table_verb->footer(table_help);
  table_verb->callback([=, &code] {
    table->pictures.halves = *half ? Halves::upper : Halves::both;
    code = run_table(*table);
  });
}

void add_field(CLI::App& app, ExitCode& code) {
  const auto field = std::make_shared<PointOptions>();
  const auto half = std::make_shared<bool>(false);
  CLI::App* field_verb = app.add_subcommand("field", "one point in full");
  field_verb->add_option("FILE", field->device_file, "device file (TOML)")->required();
  field_verb->add_option("--displacement-mm", field->displacement_mm, "default: the first of the file");
  field_verb->add_option("--current", field->currents, "circuit=ampere; default 0, or the file's only point")
      ->allow_extra_args(false)
      ->delimiter(',');
  field_verb->add_option("-o", field->folder, "folder for picture and field->vtu; default: <file stem>_out");
  field_verb->add_flag("!--no-files", field->files, "print only");
  field_verb->add_flag(
      "--sensitivities", field->sensitivities,
      "also what moves the force, ranked: per 0.1 mm of each dimension, per 1 % of each strength");
  field_verb->add_flag("--half-section", *half, half_words);
  field_verb->footer(field_help);
  field_verb->callback([=, &code] {
    field->halves = *half ? Halves::upper : Halves::both;
    code = run_field(*field);
  });
}

void add_validate(CLI::App& app, ExitCode& code) {
  const auto validation = std::make_shared<ValidateOptions>();
  CLI::App* validate_verb =
      app.add_subcommand("validate", "recompute published and exact cases; one page and CSV");
  validate_verb->add_option("-o", validation->folder, "folder for the page; default: validation_out");
  validate_verb->add_flag("--quick", validation->quick, "only the cases that take seconds");
  validate_verb->footer(validate_help);
  validate_verb->callback([=, &code] { code = run_validate(*validation); });
}

void add_judge(CLI::App& app, ExitCode& code) {
  const auto judge = std::make_shared<JudgeOptions>();
  CLI::App* judge_verb = app.add_subcommand("judge", "lay your own forces over a table");
  judge_verb->add_option("TABLE", judge->table_file, "force_table.csv")->required();
  judge_verb->add_option("MINE", judge->mine_file, "displacement, current, force as CSV")->required();
  judge_verb->add_option("-o", judge->folder, "folder for the results; default: <stem of MINE>_out");
  judge_verb->footer(judge_help);
  judge_verb->callback([=, &code] { code = run_judge(*judge); });
}

void add_bench(CLI::App& app, ExitCode& code) {
  const auto bench = std::make_shared<BenchOptions>();
  CLI::App* bench_verb = app.add_subcommand("bench", "what meter, field probe and scale should read");
  bench_verb->add_option("FILE", bench->device_file, "device file (TOML)")->required();
  bench_verb->add_option("-o", bench->folder, "folder for the results; default: <file stem>_out");
  bench_verb->add_option("--threads", bench->threads, "default: one a core")->check(CLI::Range(1, 1024));
  bench_verb->footer(bench_help);
  bench_verb->callback([=, &code] { code = run_bench(*bench); });
}

void add_calibrate(CLI::App& app, ExitCode& code) {
  const auto calibrate = std::make_shared<CalibrateOptions>();
  CLI::App* calibrate_verb = app.add_subcommand("calibrate", "fit numbers of the device to measurements");
  calibrate_verb->add_option("FILE", calibrate->device_file, "device file (TOML)")->required();
  calibrate_verb
      ->add_option("MEASURED", calibrate->measured_file,
                   "displacement, current, and force, B_z or inductance")
      ->required();
  calibrate_verb
      ->add_option("--fit", calibrate->fit,
                   "remanence[=MAGNET], offset or saturation[=CORE]; may be repeated")
      ->required()
      ->allow_extra_args(false);
  calibrate_verb->add_option("-o", calibrate->folder, "folder for the results; default: <file stem>_out");
  calibrate_verb->add_option("--threads", calibrate->threads, "default: one a core")
      ->check(CLI::Range(1, 1024));
  calibrate_verb->footer(calibrate_help);
  calibrate_verb->callback([=, &code] { code = run_calibrate(*calibrate); });
}

void add_compare(CLI::App& app, ExitCode& code) {
  const auto compare = std::make_shared<CompareOptions>();
  CLI::App* compare_verb =
      app.add_subcommand("compare", "one device in several materials, or several devices");
  compare_verb->add_option("FILES", compare->device_files, "device files (TOML)")->required();
  compare_verb
      ->add_option("--with", compare->changes, "PART=MATERIAL, PART=none, all=MATERIAL; may be repeated")
      ->allow_extra_args(false);
  compare_verb->add_option("-o", compare->folder, "folder for the results; default: <stem of the first>_out");
  compare_verb->add_option("--threads", compare->threads, "default: one a core")->check(CLI::Range(1, 1024));
  compare_verb->add_flag("--quiet", compare->quiet, "no progress");
  compare_verb->footer(compare_help);
  compare_verb->callback([=, &code] { code = run_compare(*compare); });
}

void add_remanence(CLI::App& app, ExitCode& code) {
  const auto remanence = std::make_shared<RemanenceOptions>();
  CLI::App* remanence_verb =
      app.add_subcommand("remanence", "what cores that stay magnetised do, as a bracket");
  remanence_verb->add_option("FILE", remanence->device_file, "device file (TOML)")->required();
  remanence_verb->add_option("-o", remanence->folder, "folder for the results; default: <file stem>_out");
  remanence_verb->add_option("--threads", remanence->threads, "default: one a core")
      ->check(CLI::Range(1, 1024));
  remanence_verb->footer(remanence_help);
  remanence_verb->callback([=, &code] { code = run_remanence(*remanence); });
}

void add_wires(CLI::App& app, ExitCode& code) {
  const auto wires = std::make_shared<WiresOptions>();
  CLI::App* wires_verb = app.add_subcommand("wires", "which wire, for a stated supply, by a solved table");
  wires_verb->add_option("FILE", wires->device_file, "device file (TOML)")->required();
  wires_verb->add_option("--volts", wires->supply_V, "of the supply")->required()->check(CLI::PositiveNumber);
  wires_verb->add_option("--ohms", wires->source_ohm, "of supply, switch and leads; default 0")
      ->check(CLI::NonNegativeNumber);
  wires_verb->add_option("--pulse-ms", wires->pulse_ms, "how long a pulse lasts; default 10")
      ->check(CLI::PositiveNumber);
  wires_verb->add_option("--coil", wires->coil, "which coil; default: the only one");
  wires_verb->add_option("--table", wires->table_file, "default: <file stem>_out/force_table.csv");
  wires_verb->add_option("--metal", wires->metal, "copper or aluminium; default: the coil's");
  wires_verb->add_option("--insulation", wires->insulation, "grade 1 or grade 2; default grade 2");
  wires_verb->add_flag("--awg", wires->by_gauge, "sizes by gauge instead of IEC 60317");
  wires_verb->add_option("-o", wires->folder, "folder of wires->csv; default: <file stem>_out");
  wires_verb->footer(wires_help);
  wires_verb->callback([=, &code] { code = run_wires(*wires); });
}

void add_variants_merge(CLI::App& variants, ExitCode& code) {
  struct Choice {
    std::vector<std::filesystem::path> stores;
    std::filesystem::path into;
  };
  const auto choice = std::make_shared<Choice>();
  CLI::App* merge = variants.add_subcommand("merge", "put the results of several stores into one");
  merge->add_option("STORES", choice->stores, "files variants.db")->required();
  merge->add_option("-o", choice->into, "the store that takes them; made unless it is there")->required();
  merge->callback([=, &code] { code = run_variants_merge(choice->stores, choice->into); });
}

void add_variants(CLI::App& app, ExitCode& code) {
  const auto variants = std::make_shared<VariantsOptions>();
  const auto shard = std::make_shared<std::string>("1/1");
  CLI::App* variants_verb =
      app.add_subcommand("variants", "many devices from one: unattended, resumable, answered");
  CLI::Option* file = variants_verb->add_option("FILE", variants->file, "variants file (TOML)");
  variants_verb->add_option("-o", variants->folder, "folder of store and answers; default: <file stem>_out");
  variants_verb->add_option("--jobs", variants->jobs, "variants at once; default: one a core")
      ->check(CLI::Range(1, 1024));
  variants_verb->add_option("--shard", *shard, "K/N: solve only every N-th, from the K-th on");
  variants_verb->add_flag("--each", variants->each, "a line when a variant begins and when it is stored");
  variants_verb->add_flag("--quiet", variants->quiet, "no progress, no summary");
  variants_verb->footer(variants_help);
  add_variants_merge(*variants_verb, code);
  variants_verb->callback([=, &code] {
    if (!variants_verb->get_subcommands().empty()) return;  // merge has done it
    if (file->count() == 0) throw CLI::RequiredError("FILE");
    variants->shard = shard_of(*shard);
    code = run_variants(*variants);
  });
}

int run(int argc, char** argv) {
  ExitCode code = exit_good;
  CLI::App app("Axial force of a coil with its steel on a magnet or plunger, with error bars.", "coilpull");
  app.set_version_flag("--version", "coilpull " + program_version());
  app.require_subcommand(0, 1);

  for (const auto add : {add_check, add_table, add_field, add_validate, add_judge, add_bench, add_calibrate,
                         add_compare, add_remanence, add_wires, add_variants, add_material})
    add(app, code);
  add_workshop_verbs(app, code);
  add_shell_verbs(app, code);
  app.footer(first_help);  // after the verbs, which would inherit it
  try {
    app.parse(argc, argv);
    if (app.get_subcommands().empty()) std::cout << app.help();
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? exit_good : exit_wrong_input;
  }
  return code;
}

/// A full disk and a closed pipe are told by write(), not by a signal that ends us with results in hand.
void hear_of_failed_writes_by_their_result() {
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
}

/// What was printed has to have arrived.
int checked_output(int code) {
  std::cout.flush();
  if (std::cout || code != coilpull::exit_good) return code;
  std::cerr << "coilpull: cannot write to standard output.\n";
  return coilpull::exit_cannot_write;
}

}  // namespace

int main(int argc, char** argv) {
  hear_of_failed_writes_by_their_result();
  const auto end = [](const char* what, int code) { return std::cerr << "coilpull: " << what << "\n", code; };
  try {
    return checked_output(run(argc, argv));
  } catch (const coilpull::BadDevice& e) {
    return end(e.what(), coilpull::exit_wrong_input);
  } catch (const coilpull::BadCsv& e) {
    return end(e.what(), coilpull::exit_wrong_input);
  } catch (const coilpull::BadMaterial& e) {
    return end(e.what(), coilpull::exit_wrong_input);
  } catch (const coilpull::NoLeastSquares& e) {
    return end(e.what(), coilpull::exit_cannot_write);
  } catch (const coilpull::NoVtu& e) {
    return end(e.what(), coilpull::exit_cannot_write);
  } catch (const coilpull::NoArrays& e) {
    return end(e.what(), coilpull::exit_cannot_write);
  } catch (const coilpull::CannotWrite& e) {
    return end(e.what(), coilpull::exit_cannot_write);
  } catch (const std::bad_alloc&) {
    return end("out of memory. Free some, ask for fewer rows or threads, or for a wider tolerance.",
               coilpull::exit_our_mistake);
  } catch (const std::exception& e) {
    return end(e.what(), coilpull::exit_our_mistake);
  }
}
