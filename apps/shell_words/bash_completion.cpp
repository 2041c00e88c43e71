// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/shell_words/completion.hpp"

namespace coilpull {
namespace {

std::vector<std::string> names_of(const std::vector<OptionWords>& options) {
  std::vector<std::string> names;
  for (const OptionWords& option : options)
    names.insert(names.end(), option.names.begin(), option.names.end());
  return names;
}

std::vector<std::string> names_of(const std::vector<VerbWords>& verbs) {
  std::vector<std::string> names;
  names.reserve(verbs.size());
  for (const VerbWords& verb : verbs) names.push_back(verb.name);
  return names;
}

/// What follows an option that takes a closed choice, or an operand that is one.
std::string choice_lines(const std::string& path, const VerbWords& verb) {
  std::string text;
  for (const OptionWords& option : verb.options)
    if (!option.choices.empty())
      for (const std::string& name : option.names)
        text += "    \"" + path + " " + name + "\") words=\"" + joined(option.choices) + "\" ;;\n";
  return text;
}

std::string verb_line(const std::string& path, const VerbWords& verb) {
  std::string operands = joined(names_of(verb.verbs));
  for (const OptionWords& operand : verb.operands) operands += joined(operand.choices);
  const bool files = !verb.operands.empty() && operands.empty();
  return "    \"" + path + "\") options=\"" + joined(names_of(verb.options)) + "\"; words=\"" + operands +
         "\"; files=" + (files ? "yes" : "no") + " ;;\n";
}

}  // namespace

std::string bash_completion(const VerbWords& program) {
  std::string choices, verbs = verb_line("", program), groups;
  for (const VerbPath& one : every_verb(program)) {
    choices += choice_lines(joined(one.path), *one.verb);
    verbs += verb_line(joined(one.path), *one.verb);
    if (!one.verb->verbs.empty()) groups += (groups.empty() ? "\"" : "|\"") + joined(one.path) + "\"";
  }
  return "# bash completion for coilpull, written by: coilpull completion bash\n"
         "_coilpull() {\n"
         "  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
         "  local path=\"\" words=\"\" options=\"\" files=no word\n"
         "  for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
         "    case $word in -*) continue ;; esac\n"
         "    case $path in\n"
         "      \"\") path=$word ;;\n" +
         (groups.empty() ? "" : "      " + groups + ") path=\"$path $word\" ;;\n") +
         "    esac\n"
         "  done\n"
         "  case \"$path $before\" in\n" +
         choices +
         "  esac\n"
         "  if [ -n \"$words\" ]; then\n"
         "    COMPREPLY=($(compgen -W \"$words\" -- \"$current\"))\n"
         "    return\n"
         "  fi\n"
         "  case $path in\n" +
         verbs +
         "  esac\n"
         "  case $current in\n"
         "    -*) COMPREPLY=($(compgen -W \"$options\" -- \"$current\")) ;;\n"
         "    *)\n"
         "      COMPREPLY=($(compgen -W \"$words\" -- \"$current\"))\n"
         "      case $files$before in\n"
         "        yes*|no-*) while IFS= read -r word; do COMPREPLY+=(\"$word\"); done < <(compgen -f -- "
         "\"$current\") ;;\n"
         "      esac ;;\n"
         "  esac\n"
         "}\n"
         "complete -o filenames -F _coilpull coilpull\n";
}

}  // namespace coilpull
