// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <functional>

#include "apps/output/axes.hpp"
#include "apps/output/stroke_text.hpp"

namespace coilpull {
namespace {

constexpr double width = 860, panel = 128, top = 64, bottom = 54, left = 78, right = 24;

struct Panel {
  std::string words;
  std::vector<std::function<double(const StrokePoint&)>> curves;  ///< one, or one a stage
};

std::vector<Panel> panels_of(std::size_t stages) {
  std::vector<Panel> panels = {
      {"position (mm)", {[](const StrokePoint& p) { return 1e3 * p.state.displacement; }}},
      {"speed (m/s)", {[](const StrokePoint& p) { return p.state.speed_m_per_s; }}},
      {"current (A)", {}},
      {"voltage (V)", {}},
      {"force (N)", {[](const StrokePoint& p) { return p.force_N; }}},
      {"winding (degC)", {}}};
  for (std::size_t k = 0; k < stages; ++k) {
    panels[2].curves.push_back([k](const StrokePoint& p) { return p.windings[k].current_A; });
    panels[3].curves.push_back([k](const StrokePoint& p) { return p.windings[k].voltage_V; });
    panels[5].curves.push_back([k](const StrokePoint& p) { return p.state.windings[k].degC; });
  }
  return panels;
}

/// Nothing happens any more a tenth after the last event: the picture ends there.
double last_time(const SwitchedRun& run) {
  const double end = run.points.back().state.time_s;
  if (run.end != SwitchedEnd::time_over || run.events.empty()) return end;
  return std::min(end, std::max(1.1 * run.events.back().time_s, end / 100));
}

void draw_events(Canvas& canvas, const Axes& axes, const SwitchedRun& run) {
  for (const StrokeEventAt& e : run.events) {
    const bool on = e.event == StrokeEvent::switched_on || e.event == StrokeEvent::switched_reversed;
    if ((!on && e.event != StrokeEvent::switched_off) || e.time_s > axes.x.to) continue;
    canvas.stroke(Line{axes.spot(e.time_s * 1e3, axes.y.from), axes.spot(e.time_s * 1e3, axes.y.to)},
                  on ? Pen{look::quiet, 0.8} : Pen{look::quiet, 0.8, {2, 3}});
  }
}

}  // namespace

Canvas draw_stroke(const StrokePlan& plan, const SwitchedRun& run, const std::string& title) {
  const std::vector<Panel> panels = panels_of(plan.setup.stages.size());
  Canvas canvas(width, top + bottom + panel * static_cast<double>(panels.size()));
  const bool row = plan.setup.stages.size() > 1;
  draw_title(canvas, title,
             std::string(
                 "the stroke in time; upright lines: a stage switches on (solid), off or reversed (dotted)") +
                 (row ? "; stages from dark blue to ochre" : ""),
             left);
  const double end = last_time(run);
  double y = top;
  for (std::size_t n = 0; n < panels.size(); ++n, y += panel) {
    std::vector<double> values;
    for (const StrokePoint& p : run.points)
      if (p.state.time_s <= end)
        for (const auto& curve : panels[n].curves) values.push_back(curve(p));
    const bool lowest = n + 1 == panels.size();
    const Axes axes{{left, width - right, y, y + panel - 22},
                    {0, std::max(1e3 * end, 1e-9)},
                    range_of(values),
                    lowest ? "time (ms)" : "",
                    panels[n].words};
    draw_axes(canvas, axes);
    draw_events(canvas, axes, run);
    for (std::size_t c = 0; c < panels[n].curves.size(); ++c) {
      Line line;
      for (const StrokePoint& p : run.points)
        if (p.state.time_s <= end) line.push_back(axes.spot(1e3 * p.state.time_s, panels[n].curves[c](p)));
      const double part = panels[n].curves.size() < 2
                              ? 0
                              : static_cast<double>(c) / static_cast<double>(panels[n].curves.size() - 1);
      canvas.stroke(line, Pen{on_order_scale(0.85 * part), 1.6});
    }
  }
  return canvas;
}

}  // namespace coilpull
