// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include "apps/device_file/bad_device.hpp"
#include "apps/variants/plan.hpp"
#include "tests/apps/stage_variants.hpp"

using namespace coilpull;

namespace {

std::string refusal(const std::string& words, const std::string& device = stage_words) {
  const ScratchFolder scratch;
  try {
    plan_variants(file_of(scratch, device, "[vary]\ncoil.pull.turns = [250, 300]\n" + words));
  } catch (const BadDevice& bad) {
    return scratch.without_path(bad.what());
  }
  return "accepted";
}

}  // namespace

TEST_CASE("a stroke that cannot be run is refused before anything is solved, at the key that is wrong") {
  const std::string goal = "[goals]\nexit_speed_m_per_s = \"most\"\n";
  CHECK(refusal(goal) == "accepted");
  CHECK(refusal(goal, std::string(stage_words).substr(0, std::string(stage_words).find("[mechanics]")))
            .find("many.toml:5: [goals] exit_speed_m_per_s = \"most\": device.toml: a stroke needs the mass "
                  "that moves.\n  Give [mechanics] mass_g.") == 0);
  CHECK(refusal("[stroke]\nstart_mm = -31\n") ==
        "many.toml:5: [stroke] start_mm = -31: lies outside the stroke, -30 to 30 mm.\n  Start within, or "
        "widen displacement_mm in [motion].");
  CHECK(refusal("[stroke]\nstages = 3\n") ==
        "many.toml:5: [stroke] stages = 3: needs pitch_mm: the standing parts of a stage are 20 mm long, so "
        "the next would lie in them.\n  Give a pitch of that at least.");
  CHECK(refusal("[stroke]\nstages = 3\npitch_mm = 5\n")
            .find("many.toml:6: [stroke] pitch_mm = 5: is too short: the standing parts") == 0);
  CHECK(refusal("[stroke]\nstages = 101\n") ==
        "many.toml:5: [stroke] stages = 101: has to be a whole number from 1 to 100.");
  CHECK(refusal("[stroke]\non_by = \"gate\"\n") ==
        "many.toml:5: [stroke] on_by = \"gate\": is no sensor that switches.\n  [sensor.gate] needs kind, "
        "operate_mT and release_mT.");
  CHECK(refusal("[stroke]\nbest = true\noff_after_ms = 3\n") ==
        "many.toml:5: [stroke] best = true: moves the places of switching.\n  Leave out on_by, off_by and "
        "off_after_ms.");
  CHECK(
      refusal("[limits]\npulse_rise_K = { below = 30 }\n") ==
      "many.toml:5: [limits] pulse_rise_K = { below = 30 }: device.toml does not tell it.\n  It needs [duty] "
      "pulse_ms, for steady_degC strokes_per_minute too, and the wire of every coil.");
  CHECK(refusal("[stroke]\nsense = \"up\"\n") ==
        "many.toml:5: [stroke] sense = \"up\": has to be \"plus\" or \"minus\".");
  CHECK(refusal("[stroke]\nuntil_ms = 0\n") ==
        "many.toml:5: [stroke] until_ms = 0: has to lie between 0.001 and 1e+05.");
  CHECK(refusal("[stroke]\ncircuit = \"pul\"\n")
            .find("many.toml:5: [stroke] circuit = \"pul\": is no circuit "
                  "of the device.\n  Did you mean \"pull\"?") == 0);
  CHECK(refusal("[stroke]\nstart = 3\n").find("many.toml:5: [stroke] start = 3: unknown key") == 0);
  CHECK(refusal("[stroke]\n[set]\ncurrent.pull_A = [1, 2, 3]\n")
            .find("many.toml:4: [stroke]: device.toml: a stroke needs a table with current 0 within it") ==
        0);
}
