// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/shell_verbs.hpp"

#include <iostream>
#include <memory>

#include "apps/commands/first_help.hpp"
#include "apps/shell_words/completion.hpp"
#include "apps/shell_words/manual_page.hpp"

namespace coilpull {
namespace {

void add_completion(CLI::App& app, ExitCode& code) {
  const auto shell = std::make_shared<std::string>();
  CLI::App* verb = app.add_subcommand("completion", "print what completes these words in a shell");
  verb->add_option("SHELL", *shell, "which shell")->required()->check(CLI::IsMember({"bash", "zsh", "fish"}));
  verb->footer(completion_help);
  verb->callback([shell, &app, &code] {
    const VerbWords program = words_of(app);
    std::cout << (*shell == "bash"  ? bash_completion(program)
                  : *shell == "zsh" ? zsh_completion(program)
                                    : fish_completion(program));
    code = exit_good;
  });
}

void add_manual(CLI::App& app, ExitCode& code) {
  CLI::App* verb = app.add_subcommand("manual", "print the manual page (mdoc)");
  verb->footer(manual_help);
  verb->callback([&app, &code] {
    std::cout << manual_page(words_of(app));
    code = exit_good;
  });
}

}  // namespace

void add_shell_verbs(CLI::App& app, ExitCode& code) {
  for (const auto add : {add_completion, add_manual}) add(app, code);
}

}  // namespace coilpull
