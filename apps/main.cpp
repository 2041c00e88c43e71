// SPDX-License-Identifier: GPL-3.0-or-later
#include <fcntl.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <csignal>
#include <iostream>

#include "apps/calibration/fit_module.hpp"
#include "apps/choosing_verbs.hpp"
#include "apps/commands/first_help.hpp"
#include "apps/device_file/bad_device.hpp"
#include "apps/exchange/array_file.hpp"
#include "apps/input/bad_csv.hpp"
#include "apps/material_verbs.hpp"
#include "apps/measuring_verbs.hpp"
#include "apps/motion_verbs.hpp"
#include "apps/output/plain_text.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/vtu_file.hpp"
#include "apps/shell_verbs.hpp"
#include "apps/solving_verbs.hpp"
#include "apps/variants_verbs.hpp"
#include "apps/workshop_verbs.hpp"
#include "materials/bad_material.hpp"

namespace {

using namespace coilpull;

int run(int argc, char** argv) {
  ExitCode code = exit_good;
  CLI::App app("Axial force of a coil with its steel on a magnet or plunger, with error bars.", "coilpull");
  app.set_version_flag("--version", "coilpull " + program_version());
  app.require_subcommand(0, 1);

  for (const auto add : {add_solving_verbs, add_measuring_verbs, add_choosing_verbs, add_variants,
                         add_material, add_motion_verbs, add_workshop_verbs, add_shell_verbs})
    add(app, code);
  app.footer(first_help);  // after the verbs, which would inherit it
  try {
    app.parse(argc, argv);
    if (app.get_subcommands().empty()) std::cout << app.help();
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? exit_good : exit_wrong_input;
  }
  return code;
}

/// Started with a closed standard stream, the next file or socket would take its number, and words for a
/// screen would go into it. What stands in for the output can only be read: that it arrived nowhere is still
/// seen.
void keep_numbers_of_closed_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (::fcntl(stream, F_GETFD) < 0) ::open("/dev/null", stream == STDERR_FILENO ? O_WRONLY : O_RDONLY);
}

/// A full disk and a closed pipe are told by write(), not by a signal that ends us with results in hand.
void hear_of_failed_writes_by_their_result() {
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
}

/// What was printed has to have arrived.
int checked_output(int code) {
  std::cout.flush();
  if (std::cout || (code != coilpull::exit_good && code != coilpull::exit_row_not_ok)) return code;
  std::cerr << "coilpull: cannot write to standard output.\n";
  return coilpull::exit_cannot_write;
}

}  // namespace

int main(int argc, char** argv) {
  keep_numbers_of_closed_streams();
  hear_of_failed_writes_by_their_result();
  const auto end = [](const char* what, int code) {
    return std::cerr << "coilpull: " << plain_lines(what) << "\n", code;
  };
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
