// SPDX-License-Identifier: GPL-3.0-or-later
// Draws devices and solves each in a process of its own: every one ends in a table whose rows say what they
// are worth, or in a refusal. Run: try_devices FIRST LAST [--finer EVERY] [--seconds MOST] [--keep FOLDER]
// [--show 1] [--coarse 1]
// --coarse asks for bars of a tenth of the largest force only: ten thousand devices in hours instead of days.
// --show prints the device files and solves nothing. Every EVERY-th solved device is solved again to a tenth
// of the tolerance and its bars are held against that. Ends with 1 when a device crashed, hung, left an
// unmarked bad row, or a bar missed by more than 5.
#include <poll.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <map>

#include "apps/device_file/read_device_file.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/random_devices/drawn_device.hpp"

using namespace coilpull;

namespace {

struct Choice {
  unsigned first = 1, last = 36, finer_every = 0, seconds = 300;
  std::string keep;
  bool show = false, coarse = false;
};

/// What the child tells its parent: plain numbers through a pipe.
struct Outcome {
  enum Kind : int { nothing, table, refused, wrong } kind = nothing;
  int rows = 0, not_ok = 0, compared = 0, inside = 0;
  double worst_miss = 0;  ///< |force - finer force| / bar
  char words[200] = {};
};

void say(Outcome& outcome, const std::string& words) {
  std::snprintf(outcome.words, sizeof outcome.words, "%s", words.c_str());
}

/// A row that is called good has good numbers; one that is not has none, or says why.
std::string trouble_in(const ForceTable& table, const Measurement& row) {
  const double force = row.force_N.value, bar = row.force_N.error;
  const bool usable = row.status == RowStatus::ok || row.status == RowStatus::tolerance_not_met;
  if (usable && !(std::isfinite(force) && std::isfinite(bar) && bar >= 0))
    return "a usable row without numbers";
  if (!usable && !std::isnan(force)) return "an unusable row with a force";
  if (!usable && row.why.empty()) return "an unusable row without a reason";
  if (row.why.find("std::") != std::string::npos) return "a reason nobody understands: " + row.why;
  if (row.status == RowStatus::ok &&
      bar > std::max(table.tolerance_asked * table.peak_force_N, 1e-9) * (1 + 1e-12))
    return "a row called ok with too wide a bar";
  return "";
}

ForceTable solved(const Device& device) {
  SweepOptions options;
  options.threads = 1;
  options.audit = false;
  return sweep(device, options);
}

void compare(Device device, const ForceTable& table, Outcome& outcome) {
  device.tolerance = std::min(device.tolerance, table.tolerance_reached) / 10;  // bars are often far below it
  const ForceTable finer = solved(device);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const Measured &coarse = table.rows[i].force_N, &fine = finer.rows[i].force_N;
    if (!(coarse.error > 0 && fine.error < 0.34 * coarse.error)) continue;  // no second opinion, or NaN
    const double miss = std::abs(coarse.value - fine.value) / coarse.error;
    ++outcome.compared;
    outcome.inside += miss <= 1;
    outcome.worst_miss = std::max(outcome.worst_miss, miss);
  }
}

Outcome outcome_of(const std::string& toml, bool finer, bool coarse) {
  Outcome outcome;
  try {
    DeviceFile file = open_device_text(toml, "drawn.toml", "");
    if (coarse) file.device.tolerance = std::max(file.device.tolerance, 0.1);
    try {
      const ForceTable table = solved(file.device);
      outcome.kind = Outcome::table;
      for (const Measurement& row : table.rows) {
        ++outcome.rows;
        if (row.status != RowStatus::ok)
          ++outcome.not_ok, say(outcome, std::string(word_for(row.status)) + ": " + row.why);
        const std::string trouble = trouble_in(table, row);
        if (!trouble.empty()) return outcome.kind = Outcome::wrong, say(outcome, trouble), outcome;
      }
      if (finer) compare(file.device, table, outcome);
    } catch (const BadSection& trouble) {
      outcome.kind = Outcome::refused;
      say(outcome, explain(trouble, file));
    }
  } catch (const BadDevice& refused) {
    outcome.kind = Outcome::refused;
    say(outcome, refused.what());
  } catch (const std::exception& other) {
    outcome.kind = Outcome::wrong;
    say(outcome, std::string("an exception leaves the sweep: ") + other.what());
  }
  return outcome;
}

/// In a child, so that nothing it does reaches the others.
Outcome in_a_process(const std::string& toml, bool finer, const Choice& choice) {
  int ends[2];
  if (pipe(ends) != 0) std::abort();
  const pid_t child = fork();
  if (child == 0) {
    close(ends[0]);
    const rlimit core = {0, 0};
    setrlimit(RLIMIT_CORE, &core);
#ifndef __SANITIZE_ADDRESS__  // which reserves terabytes of addresses
    const rlimit memory = {rlim_t{6} << 30, rlim_t{6} << 30};
    setrlimit(RLIMIT_AS, &memory);
#endif
    const Outcome outcome = outcome_of(toml, finer, choice.coarse);
    _exit(write(ends[1], &outcome, sizeof outcome) == sizeof outcome ? 0 : 1);
  }
  close(ends[1]);
  Outcome outcome;
  pollfd watched = {ends[0], POLLIN, 0};
  const bool answered = poll(&watched, 1, static_cast<int>(choice.seconds * 1000)) > 0;
  if (!answered) kill(child, SIGKILL);
  if (!answered || read(ends[0], &outcome, sizeof outcome) != sizeof outcome) outcome = Outcome{};
  close(ends[0]);
  int status = 0;
  waitpid(child, &status, 0);
  if (outcome.kind == Outcome::nothing) {
    outcome.kind = Outcome::wrong;
    say(outcome, !answered             ? "no answer in the time allowed"
                 : WIFSIGNALED(status) ? std::string("ended by ") + strsignal(WTERMSIG(status))
                                       : "ended");
  }
  return outcome;
}

Choice choice_from(int argc, char** argv) {
  Choice choice;
  const auto number = [argv](int i) { return static_cast<unsigned>(std::stoul(argv[i])); };
  if (argc > 2) choice.first = number(1), choice.last = number(2);
  for (int i = 3; i + 1 < argc; i += 2) {
    const std::string word = argv[i];
    if (word == "--finer") choice.finer_every = number(i + 1);
    if (word == "--seconds") choice.seconds = number(i + 1);
    if (word == "--show") choice.show = number(i + 1) > 0;
    if (word == "--coarse") choice.coarse = number(i + 1) > 0;
    if (word == "--keep") choice.keep = argv[i + 1];
  }
  return choice;
}

}  // namespace

int main(int argc, char** argv) {
  const Choice choice = choice_from(argc, argv);
  std::map<Trait, int> with;
  int tried = 0, tables = 0, refused = 0, wrong = 0, rows = 0, not_ok = 0, compared = 0, inside = 0;
  double worst_miss = 0;
  for (unsigned seed = choice.first; seed <= choice.last; ++seed) {
    const DrawnDevice drawn = drawn_device(seed);
    if (choice.show) {
      std::printf("%s", drawn.toml.c_str());
      continue;
    }
    for (int t = 0; t < static_cast<int>(Trait::count); ++t) with[Trait(t)] += drawn.is(Trait(t));
    const bool finer = choice.finer_every > 0 && seed % choice.finer_every == 0;
    const Outcome outcome = in_a_process(drawn.toml, finer, choice);
    ++tried;
    tables += outcome.kind == Outcome::table;
    refused += outcome.kind == Outcome::refused;
    wrong += outcome.kind == Outcome::wrong;
    rows += outcome.rows, not_ok += outcome.not_ok, compared += outcome.compared, inside += outcome.inside;
    worst_miss = std::max(worst_miss, outcome.worst_miss);
    if (outcome.kind == Outcome::wrong || outcome.worst_miss > 5)
      std::printf("WRONG %u: %s, worst miss %.2f bars\n", seed, outcome.words, outcome.worst_miss);
    else if (outcome.kind == Outcome::refused && !drawn.is(Trait::nearly_valid))
      std::printf("refused %u: %s\n", seed, outcome.words);
    else if (outcome.not_ok > 0)
      std::printf("marked %u: %d of %d rows, %s\n", seed, outcome.not_ok, outcome.rows, outcome.words);
    if (outcome.kind == Outcome::wrong && !choice.keep.empty())
      std::ofstream(choice.keep + "/" + std::to_string(seed) + ".toml") << drawn.toml;
    std::fflush(stdout);
  }
  for (const auto& [trait, count] : with)
    std::printf("%5.1f %% %s\n", 100.0 * count / tried, word_for(trait));
  std::printf("%d devices: %d tables, %d refused, %d wrong; %d rows, %d marked; ", tried, tables, refused,
              wrong, rows, not_ok);
  std::printf("%d rows compared, %d inside their bar, worst miss %.2f bars\n", compared, inside, worst_miss);
  const bool covered = compared == 0 || inside >= 0.95 * compared;
  return wrong == 0 && worst_miss <= 5 && covered ? 0 : 1;
}
