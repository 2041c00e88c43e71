// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion_verbs.hpp"

#include <memory>

#include "apps/commands/first_help.hpp"
#include "apps/commands/stroke.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

CLI::Validator within(const ChoiceBounds& bounds) { return number_within(bounds.least, bounds.most); }

void add_switching(CLI::App& verb, StrokeChoice& choice) {
  verb.add_option("--sense", choice.sense, "of the current, plus or minus; default: the one that helps most")
      ->check(CLI::IsMember({"plus", "minus"}));
  verb.add_option("--on-mm", choice.on_mm, "displacement at which a stage is switched on")
      ->check(place_in_mm());
  verb.add_option("--off-mm", choice.off_mm, "displacement at which it is switched off")
      ->check(place_in_mm());
  verb.add_option("--off-after-ms", choice.off_after_ms, "switched off so long after it was switched on")
      ->check(within(stroke_ms));
  verb.add_option("--on-by", choice.on_by, "sensor that switches it on as it operates, off as it lets go");
  verb.add_option("--off-by", choice.off_by, "sensor that switches it off as it operates");
  verb.add_option("--reverse-until-mm", choice.reverse_until_mm,
                  "reversed instead of off, and off at this displacement")
      ->check(place_in_mm());
  verb.add_option("--delay-us", choice.delay_us, "from an order to the switch; default 0")
      ->check(within(switch_delay_us));
  verb.add_option("--cut-off-ms", choice.cut_off_ms, "safety: all off from then on")
      ->check(within(stroke_ms));
  verb.add_flag("--energy-return", choice.energy_return, "the current dies away into the supply");
}

void add_stroke(CLI::App& app, ExitCode& code) {
  const auto stroke = std::make_shared<StrokeVerbOptions>();
  CLI::App* verb = app.add_subcommand("stroke", "position, speed and current in time; exit speed, energy");
  StrokeChoice& choice = stroke->choice;
  add_device_file(*verb, stroke->device_file);
  add_results_folder(*verb, stroke->folder);
  verb->add_option("--circuit", stroke->circuit, "which circuit; default: the first that varies");
  verb->add_option("--start-mm", choice.start_mm, "displacement it starts from; default: the lowest")
      ->check(place_in_mm());
  verb->add_option("--speed", choice.speed_m_per_s,
                   "at the start, in the direction of motion, m/s; default 0")
      ->check(within(start_speed_m_per_s));
  add_switching(*verb, choice);
  verb->add_option("--until-ms", choice.until_ms, "the run ends then; default 200")->check(within(stroke_ms));
  verb->add_option("--stages", choice.stages, "equal stages one after the other; default 1")
      ->check(within(stroke_stages));
  verb->add_option("--pitch-mm", choice.pitch_mm, "from one stage to the next")->check(above_zero());
  verb->add_flag("!--no-row-check", stroke->row_check, "without the field of two stages beside each other");
  verb->add_flag("--best", stroke->best, "look for the best places of switching, and the best pitch");
  verb->add_flag("--spread", stroke->spread, "the band also by the ranges of the input");
  add_threads(*verb, stroke->threads);
  verb->footer(stroke_help);
  verb->callback([=, &code] {
    stroke->command = command_of(*verb);
    code = run_stroke(*stroke);
  });
}

}  // namespace

void add_motion_verbs(CLI::App& app, ExitCode& code) { add_stroke(app, code); }

}  // namespace coilpull
