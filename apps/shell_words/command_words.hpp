// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace coilpull {

struct OptionWords {
  std::vector<std::string> names;    ///< as typed: "-o", "--threads"; of an operand its capitals: "FILE"
  std::string words;                 ///< what it does
  std::vector<std::string> choices;  ///< the only values it takes; empty: any
  bool takes_value;
  bool required;
};

/// A verb as a person can type it, with all that --help tells of it.
struct VerbWords {
  std::string name, words, footer;
  std::vector<OptionWords> operands, options;
  std::vector<VerbWords> verbs;
};

/// Read out of the parser itself, so that manual and completion cannot know other words than the program.
VerbWords words_of(const CLI::App& app);

/// All verbs below the program itself, each with its path: {"material", "show"}.
struct VerbPath {
  std::vector<std::string> path;
  const VerbWords* verb;
};
std::vector<VerbPath> every_verb(const VerbWords& program);

/// "material show"
std::string joined(const std::vector<std::string>& words, const std::string& between = " ");

}  // namespace coilpull
