// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants_verbs.hpp"

#include <memory>

#include "apps/commands/first_help.hpp"
#include "apps/commands/variants.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

void add_variants_merge(CLI::App& variants, ExitCode& code) {
  struct Choice {
    std::vector<std::filesystem::path> stores;
    std::filesystem::path into;
  };
  const auto choice = std::make_shared<Choice>();
  CLI::App* merge = variants.add_subcommand("merge", "put the results of several stores into one");
  merge->add_option("STORES", choice->stores, "files variants.db")->required();
  merge->add_option("-o", choice->into, "the store that takes them; made unless it is there")->required();
  merge->callback(
      [=, &code] { code = run_variants_merge(choice->stores, choice->into, command_of(*merge)); });
}

}  // namespace

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
    variants->command = command_of(*variants_verb);
    code = run_variants(*variants);
  });
}

}  // namespace coilpull
