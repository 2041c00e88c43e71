// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/shell_words/completion.hpp"

namespace coilpull {
namespace {

std::string in_fish_quotes(const std::string& words) {
  std::string text = "'";
  for (const char letter : words) {
    if (letter == '\'' || letter == '\\') text += '\\';
    text += letter;
  }
  return text + "'";
}

std::string option_line(const std::string& condition, const OptionWords& option) {
  std::string line = "complete -c coilpull" + condition;
  for (const std::string& name : option.names)
    line += name.rfind("--", 0) == 0 ? " -l " + name.substr(2) : " -s " + name.substr(1);
  if (!option.choices.empty())
    line += " -x -a " + in_fish_quotes(joined(option.choices));
  else if (option.takes_value)
    line += " -r";
  return line + " -d " + in_fish_quotes(option.words) + "\n";
}

/// True where `path` has been typed and none of the verbs below it.
std::string condition_for(const std::vector<std::string>& path, const VerbWords& verb) {
  std::string test;
  for (const std::string& word : path)
    test += (test.empty() ? "" : "; and ") + std::string("__fish_seen_subcommand_from ") + word;
  if (path.empty()) test = "__fish_use_subcommand";
  if (!path.empty() && !verb.verbs.empty()) {
    test += "; and not __fish_seen_subcommand_from";
    for (const VerbWords& below : verb.verbs) test += " " + below.name;
  }
  return " -n " + in_fish_quotes(test);
}

std::string lines_for(const std::vector<std::string>& path, const VerbWords& verb) {
  const std::string condition = condition_for(path, verb);
  std::string text;
  for (const OptionWords& option : verb.options) text += option_line(condition, option);
  for (const VerbWords& below : verb.verbs)
    text += "complete -c coilpull" + condition + " -f -a " + in_fish_quotes(below.name) + " -d " +
            in_fish_quotes(below.words) + "\n";
  for (const OptionWords& operand : verb.operands)
    if (!operand.choices.empty())
      text += "complete -c coilpull" + condition + " -f -a " + in_fish_quotes(joined(operand.choices)) + "\n";
  return text;
}

}  // namespace

std::string fish_completion(const VerbWords& program) {
  std::string text =
      "# fish completion for coilpull, written by: coilpull completion fish\n" + lines_for({}, program);
  for (const VerbPath& one : every_verb(program)) text += lines_for(one.path, *one.verb);
  return text;
}

}  // namespace coilpull
