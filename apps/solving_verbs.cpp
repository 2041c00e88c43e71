// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/solving_verbs.hpp"

#include <memory>

#include "apps/commands/approximations.hpp"
#include "apps/commands/check.hpp"
#include "apps/commands/field.hpp"
#include "apps/commands/first_help.hpp"
#include "apps/commands/table.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

void add_check(CLI::App& app, ExitCode& code) {
  struct Choice {
    std::filesystem::path file, folder;
    bool half = false;
  };
  const auto choice = std::make_shared<Choice>();
  CLI::App* check = app.add_subcommand("check", "tell what is in a device file; nothing is solved");
  add_device_file(*check, choice->file);
  CLI::Option* draw = check->add_option("-o", choice->folder, "draw the device into this folder");
  add_half_section(*check, choice->half);
  CLI::Option* canonical = check->add_flag(
      "--canonical", "print the same device in mm, radii, from and to, every default written out");
  canonical->excludes(draw);
  check->footer(check_help);
  check->callback([=, &code] {
    code = canonical->count() > 0
               ? run_check_canonical(choice->file)
               : run_check(choice->file, choice->folder, choice->half ? Halves::upper : Halves::both,
                           command_of(*check));
  });
}

void add_table(CLI::App& app, ExitCode& code) {
  const auto table = std::make_shared<TableOptions>();
  const auto half = std::make_shared<bool>(false);
  CLI::App* table_verb = app.add_subcommand("table", "force against displacement and current, as CSV");
  add_device_file(*table_verb, table->device_file);
  add_results_folder(*table_verb, table->folder);
  add_threads(*table_verb, table->threads);
  table_verb->add_flag("!--no-pictures", table->pictures.wanted, "write numbers only");
  add_half_section(*table_verb, *half);
  table_verb->add_flag("--body-forces", table->bodies, "also the axial force on every body");
  table_verb->add_option("--approximation", table->approximations, "also the force by a closed formula")
      ->allow_extra_args(false)
      ->check(CLI::IsMember(names_of_approximations()));
  table_verb->add_flag("--slopes", table->slopes, "also dF/dz, dF/di and incremental inductances");
  table_verb->add_flag("!--no-audit", table->audit,
                       "no check of five rows against the energy of other meshes");
  table_verb
      ->add_option("--row-seconds", table->row_limit_s,
                   "processor time after which a row is given up; default: 600")
      ->check(number_within(1e-3, 1e6));
  table_verb->add_flag("--spread", table->spread,
                       "also the lowest and highest force that the ranges of the input leave");
  table_verb->add_flag("--vtu", table->vtu, "fields along the stroke for viewers, at the strongest current");
  table_verb->add_flag("--quiet", table->quiet, "no progress, no summary");
  table_verb->footer(table_help);
  table_verb->callback([=, &code] {
    table->pictures.halves = *half ? Halves::upper : Halves::both;
    table->command = command_of(*table_verb);
    code = run_table(*table);
  });
}

void add_field(CLI::App& app, ExitCode& code) {
  const auto field = std::make_shared<PointOptions>();
  const auto half = std::make_shared<bool>(false);
  CLI::App* field_verb = app.add_subcommand("field", "one point in full");
  add_device_file(*field_verb, field->device_file);
  field_verb->add_option("--displacement-mm", field->displacement_mm, "default: the first of the file")
      ->check(place_in_mm());
  field_verb->add_option("--current", field->currents, "circuit=ampere; default 0, or the file's only point")
      ->allow_extra_args(false)
      ->delimiter(',');
  field_verb->add_option("-o", field->folder, "folder for picture and field.vtu; default: <file stem>_out");
  field_verb->add_flag("!--no-files", field->files, "print only");
  field_verb->add_flag(
      "--sensitivities", field->sensitivities,
      "also what moves the force, ranked: per 0.1 mm of each dimension, per 1 % of each strength");
  add_half_section(*field_verb, *half);
  field_verb->footer(field_help);
  field_verb->callback([=, &code] {
    field->halves = *half ? Halves::upper : Halves::both;
    field->command = command_of(*field_verb);
    code = run_field(*field);
  });
}

}  // namespace

void add_solving_verbs(CLI::App& app, ExitCode& code) {
  for (const auto add : {add_check, add_table, add_field}) add(app, code);
}

}  // namespace coilpull
