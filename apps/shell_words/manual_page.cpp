// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/shell_words/manual_page.hpp"

#include <sstream>

#include "apps/output/program_version.hpp"

namespace coilpull {
namespace {

/// Plain words in a line of their own: no backslash and no leading dot is a command, a hyphen stays one.
std::string plain(const std::string& words) {
  std::string text;
  for (const char letter : words) {
    if (letter == '\\')
      text += "\\e";
    else if (letter == '-')
      text += "\\-";
    else
      text += letter;
  }
  return !text.empty() && (text[0] == '.' || text[0] == '\'') ? "\\&" + text : text;
}

/// Help as it is printed: its paragraphs and lines are laid out by hand and stay as they are.
std::string as_printed(const std::string& words) {
  std::istringstream lines(words);
  std::string text = ".Bd -literal -compact\n", line;
  while (std::getline(lines, line)) text += line.empty() ? "\\&\n" : plain(line) + "\n";
  return text + ".Ed\n";
}

std::string option_item(const OptionWords& option) {
  std::string text = ".It ";
  for (std::size_t i = 0; i < option.names.size(); ++i)
    text += std::string(i == 0 ? "" : " , ") + "Fl " + plain(option.names[i].substr(1));
  if (option.takes_value) text += " Ar " + (option.choices.empty() ? "value" : joined(option.choices, "|"));
  return text + "\n" + plain(option.words) + "\n";
}

std::string call_of(const VerbPath& one) {
  std::string text = ".Nm coilpull Cm " + joined(one.path);
  for (const OptionWords& operand : one.verb->operands) text += " Ar " + operand.names.front();
  for (const OptionWords& option : one.verb->options)
    if (option.required)
      text += " Fl " + plain(option.names.back().substr(1)) + (option.takes_value ? " Ar value" : "");
  return text + " Op Ar options\n";
}

std::string section_of(const VerbPath& one) {
  std::string text = ".Ss " + joined(one.path) + "\n" + plain(one.verb->words) + ".\n.Pp\n" + call_of(one) +
                     ".Bl -tag -width Ds\n";
  for (const OptionWords& operand : one.verb->operands)
    text += ".It Ar " + operand.names.front() + "\n" +
            plain(operand.words + (operand.choices.empty() ? "" : joined(operand.choices, ", "))) + "\n";
  for (const OptionWords& option : one.verb->options) text += option_item(option);
  return text + ".El\n.Pp\n" + as_printed(one.verb->footer);
}

constexpr const char* ends = R"(.Sh ENVIRONMENT
.Bl -tag -width Ds
.It Ev COILPULL_DATA
Folder of steels, magnets and wires, instead of the one that is installed.
.It Ev COILPULL_MESHER
Path of the program that makes the meshes, instead of the one that is installed.
.El
.Sh FILES
.Bl -tag -width Ds
.It Pa <file stem>_out/force_table.csv
Results, a row a point; the file beside it with
.Pa \-metadata.json
tells unit and meaning of each column.
.El
.Sh EXIT STATUS
.Bl -tag -width Ds
.It 0
good
.It 2
wrong input
.It 3
some row is not ok
.It 4
cannot write
.It 130
stopped
.El
.Sh CAVEATS
On axis, one coil or one set of coils, statics.
Error bars are numerical only.
.Pp
Strong magnets snap together, pinch and splinter; keep them from pacemakers.
A winding at a current that is fine for a pulse may burn when held.
Coils and capacitors keep energy after switch\-off.
)";

}  // namespace

std::string manual_page(const VerbWords& program) {
  std::string text = ".\\\" Written by: coilpull manual\n.Dd " COILPULL_DATE
                     "\n.Dt COILPULL 1\n.Os \"coilpull " +
                     program_version() +
                     "\"\n.Sh NAME\n.Nm coilpull\n.Nd axial force between coil, steel and magnet, with error "
                     "bars\n.Sh SYNOPSIS\n";
  std::string verbs;
  for (const VerbPath& one : every_verb(program)) {
    if (!one.verb->verbs.empty()) continue;
    text += call_of(one);
    verbs += section_of(one);
  }
  text += ".Nm coilpull Fl \\-help | Fl \\-version\n.Sh DESCRIPTION\n" + plain(program.words) + "\n.Pp\n" +
          as_printed(program.footer) + ".Sh VERBS\n" + verbs;
  return text + ends;
}

}  // namespace coilpull
