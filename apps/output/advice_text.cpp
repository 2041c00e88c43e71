// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/advice_text.hpp"

#include "apps/output/heat_text.hpp"
#include "apps/output/holding_text.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/rating_text.hpp"
#include "apps/output/sensor_text.hpp"
#include "apps/output/switching_text.hpp"

namespace coilpull {

std::string advice_head_text(const Advice& advice) {
  const DriveTable& drive = advice.drive;
  std::string text = "Told for circuit " + drive.circuit +
                     (drive.others.empty() ? "" : ", " + drive.others + " (--circuit chooses)") +
                     ";\non axis, one set of coils, statics. Bars are numerical, "
                     "and hold what the table's steps leave open between its points.\n";
  if (!drive.fit.within_bars())
    text += "Between its points the table is too coarse: the smooth function through it misses a row by " +
            rounded(drive.fit.force.bars, 3) +
            " force bars, so bars below are wider by that. More points help.\n";
  return text;
}

std::vector<AdviceSection> advice_sections(const Advice& advice, const std::string& title) {
  std::vector<AdviceSection> sections;
  const std::string lacking = "  Not told: a coil of this circuit has no wire. [coil." +
                              advice.drive.circuit +
                              "] wire = { diameter_mm = ... } tells resistance, and with it all of this.\n";
  const std::string heat = "Winding and heat", ratings = "What parts have to bear";
  if (advice.heat)
    sections.push_back({"advice_heat", heat, heat_text(*advice.heat), heat_csv(*advice.heat),
                        heat_picture(*advice.heat, title)});
  else
    sections.push_back({"advice_heat", heat, lacking});
  if (advice.ratings)
    sections.push_back({"advice_ratings", ratings, rating_text(*advice.ratings), rating_csv(*advice.ratings),
                        rating_picture(*advice.ratings, title)});
  else
    sections.push_back({"advice_ratings", ratings, lacking});
  for (const SensorAdvice& sensor : advice.sensors)
    sections.push_back({"advice_sensor_" + sensor.sensor.name, "Sensor " + sensor.sensor.name,
                        sensor_text(sensor), sensor_csv(sensor), sensor_picture(sensor, title)});
  if (advice.sensors.empty())
    sections.push_back({"advice_sensor", "Sensor",
                        "  None that switches. [sensor.<name>] with kind, operate_mT and release_mT tells "
                        "where it would.\n"});
  sections.push_back({"advice_switching", "When to switch", switching_text(advice.switching),
                      switching_csv(advice.switching),
                      switching_picture(advice.switching, advice.drive, title)});
  const std::string unknown =
      advice.mechanics_stated ? "" : "  No [mechanics]: this knows no friction, load, spring or weight.\n";
  sections.push_back({"advice_holding", "Does it move, does it hold", unknown + holding_text(advice.holding),
                      holding_csv(advice.holding), holding_picture(advice.holding, title)});
  sections.push_back({"advice_margin", "Force left over", margin_text(advice.holding),
                      margin_csv(advice.holding), margin_picture(advice.holding, title)});
  return sections;
}

}  // namespace coilpull
