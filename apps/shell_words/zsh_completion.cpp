// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/shell_words/completion.hpp"

namespace coilpull {
namespace {

/// Inside '...' and inside the [...] and :...: of a specification.
std::string escaped(const std::string& words) {
  std::string text;
  for (const char letter : words) {
    if (letter == '\'')
      text += "'\\''";
    else if (letter == '[' || letter == ']' || letter == ':' || letter == '\\')
      text += std::string("\\") + letter;
    else
      text += letter;
  }
  return text;
}

std::string action_for(const OptionWords& option) {
  return option.choices.empty() ? "_files" : "(" + joined(option.choices) + ")";
}

std::string function_name(const std::vector<std::string>& path) {
  return path.empty() ? "_coilpull" : "_coilpull_" + joined(path, "_");
}

std::string option_words(const VerbWords& verb) {
  std::string text;
  for (const OptionWords& option : verb.options)
    for (const std::string& name : option.names)
      text += " \\\n    '*" + name + "[" + escaped(option.words) + "]" +
              (option.takes_value ? ":value:" + action_for(option) : "") + "'";
  return text;
}

/// A verb with verbs below it hands over to their functions, any other one to its options and files.
std::string function_for(const std::vector<std::string>& path, const VerbWords& verb) {
  std::string text = function_name(path) + "() {\n";
  if (verb.verbs.empty()) {
    text += "  _arguments" + option_words(verb);
    if (!verb.operands.empty())
      text += " \\\n    '*:" + escaped(verb.operands.front().names.front()) + ":" +
              action_for(verb.operands.front()) + "'";
    return text + "\n}\n";
  }
  text += "  local context state state_descr line\n  typeset -A opt_args\n  _arguments -C" +
          option_words(verb) +
          " \\\n    '1:verb:->verb' '*::rest:->rest'\n  case $state in\n    verb)\n      local -a verbs=(\n";
  for (const VerbWords& below : verb.verbs)
    text += "        '" + below.name + ":" + escaped(below.words) + "'\n";
  text += "      )\n      _describe verb verbs ;;\n    rest)\n      case $line[1] in\n";
  for (const VerbWords& below : verb.verbs) {
    std::vector<std::string> deeper = path;
    deeper.push_back(below.name);
    text += "        " + below.name + ") " + function_name(deeper) + " ;;\n";
  }
  return text + "      esac ;;\n  esac\n}\n";
}

}  // namespace

std::string zsh_completion(const VerbWords& program) {
  std::string text =
      "#compdef coilpull\n# zsh completion for coilpull, written by: coilpull completion zsh\n";
  for (const VerbPath& one : every_verb(program)) text += function_for(one.path, *one.verb);
  return text + function_for({}, program) + "_coilpull \"$@\"\n";
}

}  // namespace coilpull
