// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/stroke_topic.hpp"

#include <stdexcept>

#include "apps/motion/stroke_cautions.hpp"
#include "apps/motion/stroke_faults.hpp"
#include "apps/motion/stroke_plan.hpp"
#include "apps/output/stroke_text.hpp"

namespace coilpull {
namespace {

void run_it(const DeviceFile& file, const ForceTable& table, const Advice& advice, ReportTopic& topic) {
  refuse_stroke(file, {});
  const StrokePlan plan =
      plan_stroke(file, table, advice.drive, heat_of_stroke(file, advice.drive, advice.heat), {});
  const SwitchedRun run =
      simulate_switched_stroke(advice.drive.fit.function, plan.setup, plan.start, plan.options);
  const StrokeFigures figures = stroke_figures(plan, run, advice.drive, table);
  topic.words = stroke_text(plan, run, figures);
  for (const std::string& words : stroke_cautions(file, plan, run, figures, advice.drive, std::nullopt))
    topic.words += "  " + words + "\n";
  topic.words +=
      "  One stage, switched by the plain choice; coilpull stroke takes others and rows of stages.\n";
  topic.pictures.push_back(picture_of(draw_stroke(plan, run, file.device.title), "The run in time",
                                      "Each curve against time, with the moments at which it is switched."));
}

}  // namespace

ReportTopic stroke_topic(const DeviceFile& file, const ForceTable& table, const Advice& advice) {
  ReportTopic topic{"Stroke", advice_head_text(advice), "", {}};
  try {
    run_it(file, table, advice, topic);
  } catch (const BadDevice& lacking) {
    topic.words = std::string("  Not told: ") + lacking.what() + "\n";
  } catch (const std::invalid_argument& lacking) {  // a stroke that its simulation does not take
    topic.words = std::string("  Not told: ") + lacking.what() + "\n";
  }
  return topic;
}

}  // namespace coilpull
