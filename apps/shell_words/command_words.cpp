// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/shell_words/command_words.hpp"

#include <CLI/CLI.hpp>

namespace coilpull {
namespace {

/// The parser shows a closed choice as "TEXT:{npz,mat,c}".
std::vector<std::string> choices_of(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  const std::size_t from = type.find('{'), to = type.find('}');
  std::vector<std::string> choices;
  if (from == std::string::npos || to == std::string::npos) return choices;
  return CLI::detail::split(type.substr(from + 1, to - from - 1), ',');
}

OptionWords words_of(const CLI::Option& option) {
  OptionWords words{{},
                    option.get_description(),
                    choices_of(option),
                    option.get_items_expected_max() > 0,
                    option.get_required()};
  if (option.get_positional() && option.get_lnames().empty()) {
    words.names = {option.get_single_name()};
    return words;
  }
  for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
  return words;
}

void collect(const VerbWords& verb, std::vector<std::string> path, std::vector<VerbPath>& all) {
  for (const VerbWords& below : verb.verbs) {
    path.push_back(below.name);
    all.push_back({path, &below});
    collect(below, path, all);
    path.pop_back();
  }
}

}  // namespace

VerbWords words_of(const CLI::App& app) {
  VerbWords words{app.get_name(), app.get_description(), app.get_footer(), {}, {}, {}};
  for (const CLI::Option* option : app.get_options())
    (option->get_positional() ? words.operands : words.options).push_back(words_of(*option));
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; }))
    words.verbs.push_back(words_of(*verb));
  return words;
}

std::vector<VerbPath> every_verb(const VerbWords& program) {
  std::vector<VerbPath> all;
  collect(program, {}, all);
  return all;
}

std::string joined(const std::vector<std::string>& words, const std::string& between) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) text += (i == 0 ? "" : between) + words[i];
  return text;
}

}  // namespace coilpull
