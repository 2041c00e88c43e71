// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/validation_pictures.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "apps/validation/record.hpp"
#include "apps/validation/svg_sheet.hpp"

namespace coilpull {
namespace {

constexpr double width = 440;  // letters stay legible on a narrow screen
constexpr double least_off = 1e-14, most_off = 1;

bool judged(const Check& check) {
  const Verdict verdict = verdict_of(check);
  return verdict != Verdict::none && verdict != Verdict::not_recomputed && verdict != Verdict::undecided;
}

std::vector<std::string> judged_sources(const std::vector<Check>& checks) {
  std::vector<std::string> names;
  for (const Check& check : checks)
    if (judged(check) && std::find(names.begin(), names.end(), check.source->name) == names.end())
      names.push_back(check.source->name);
  return names;
}

/// "dot agrees", "ring explained", ...
std::string mark_of(const Check& check) {
  return (check.method == "closed formula" ? "ring " : "dot ") + std::string(word_for(verdict_of(check)));
}

void legend_of_strips(SvgSheet& sheet, double x) {
  for (const char* words : {"agrees", "explained", "differs"}) {
    sheet.disc({x + 4, 14}, std::string("dot ") + words);
    sheet.text({x + 12, 14}, words, "small");
    x += 84;
  }
  sheet.disc({x + 4, 14}, "ring agrees");
  sheet.text({x + 12, 14}, "by closed formula", "small");
}

void strips(HtmlWriter& page, const std::vector<Check>& checks) {
  const std::vector<std::string> names = judged_sources(checks);
  if (names.empty()) return;
  const double strip = 34, top = 34, height = top + strip * static_cast<double>(names.size()) + 52;
  SvgSheet sheet(page, "How far ours are off, value by value", width, height);
  const Range range{least_off, most_off, true};
  const Area area{18, width - 18, top, height - 46};
  const auto x_of = [&](double off) {
    return area.x_from + range.part(std::clamp(off, least_off, most_off)) * (area.x_to - area.x_from);
  };
  for (int power = -14; power <= 0; power += 2) {
    const double x = x_of(std::pow(10, power));
    sheet.line({{x, area.y_from}, {x, area.y_to}}, "grid");
    sheet.text({x, area.y_to + 13}, power == 0 ? "1" : "1e" + std::to_string(power), "tick middle");
  }
  sheet.text({width / 2, area.y_to + 32}, "|ours - theirs| / |theirs|", "middle");
  legend_of_strips(sheet, area.x_from);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double y = top + strip * static_cast<double>(i) + 24;
    sheet.text({area.x_from, y - 14}, names[i], "small");
    sheet.line({{area.x_from, y}, {area.x_to, y}}, "grid");
    for (const Check& check : checks)
      if (check.source->name == names[i] && judged(check) && check.theirs != 0)
        sheet.disc({x_of(std::abs(check.relative_difference())), y}, mark_of(check));
  }
  sheet.end(
      "One dot a comparison. Finite elements stop at their meshes, closed formulas at the digits that the "
      "source "
      "prints; what is no further off than 1e-14 stands at the left edge.");
}

struct Series {
  std::string label;
  std::function<std::optional<double>(const Check&)> x;  ///< nothing: not of this series
};

struct Diagram {
  std::string title, words, x_words, y_words;
  std::vector<Series> series;
  bool x_logarithmic = false;
  bool as_ratio = false;  ///< ours over theirs, the line with what is expected
};

/// x behind `key` in the name of a finite-element value that holds all of `parts`.
std::function<std::optional<double>(const Check&)> named(std::vector<std::string> parts, std::string key) {
  return [parts = std::move(parts), key = std::move(key)](const Check& check) -> std::optional<double> {
    if (check.method != "finite elements" || !judged(check)) return std::nullopt;
    for (const std::string& part : parts)
      if (check.what.find(part) == std::string::npos) return std::nullopt;
    const double x = number_after(check.what, key);
    return std::isfinite(x) ? std::optional<double>(x) : std::nullopt;
  };
}

struct Dot {
  double x, theirs, ours;
};

std::vector<Dot> dots_of(const Diagram& diagram, const Series& series, const std::vector<Check>& checks) {
  std::vector<Dot> dots;
  for (const Check& check : checks)
    if (const auto x = series.x(check); x && (!diagram.x_logarithmic || *x > 0))
      dots.push_back(diagram.as_ratio ? Dot{*x, 1 + check.shift / check.theirs, check.ours / check.theirs}
                                      : Dot{*x, check.theirs, check.ours});
  std::sort(dots.begin(), dots.end(), [](const Dot& a, const Dot& b) { return a.x < b.x; });
  return dots;
}

void draw(HtmlWriter& page, const Diagram& diagram, const std::vector<Check>& checks) {
  std::vector<std::vector<Dot>> all;
  std::vector<double> x, y;
  for (const Series& series : diagram.series) {
    all.push_back(dots_of(diagram, series, checks));
    for (const Dot& dot : all.back()) {
      x.push_back(dot.x);
      y.insert(y.end(), {dot.theirs, dot.ours});
    }
  }
  if (x.empty()) return;
  const double top = 22 + 17 * static_cast<double>((diagram.series.size() + 1) / 2);
  SvgSheet sheet(page, diagram.title, width, 300 + top);
  Axes axes{
      {70, width - 26, top, 300 + top - 46}, range_of(x), range_of(y), diagram.x_words, diagram.y_words};
  if (diagram.x_logarithmic)
    axes.x = {*std::min_element(x.begin(), x.end()), *std::max_element(x.begin(), x.end()), true};
  sheet.axes(axes);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::string series = " series" + std::to_string(i);
    const Spot label{20 + 210 * static_cast<double>(i % 2), 12 + 17 * static_cast<double>(i / 2)};
    sheet.disc({label.x + 4, label.y}, "dot" + series);
    sheet.text({label.x + 13, label.y}, diagram.series[i].label, "small");
    Line line;
    for (const Dot& dot : all[i]) line.push_back(axes.spot(dot.x, dot.theirs));
    sheet.line(line, "curve" + series);
    for (const Dot& dot : all[i]) sheet.disc(axes.spot(dot.x, dot.ours), "dot" + series);
  }
  sheet.end(diagram.words);
}

std::vector<Diagram> diagrams() {
  const std::string joined = "Lines join the published values, dots are ours by finite elements.";
  std::vector<Series> laws;
  for (const char* law : {"froehlich", "arctan", "langevin", "brauer", "TEAM13"})
    laws.push_back({law, named({law, "prolate spheroid 10:1", "B inside"}, "H0 = ")});
  return {{"Pull of a gap, over that of the textbook's circuit",
           "A pot magnet with its keeper. The circuit, 1 on this scale, neglects the fringing beside the "
           "gaps; the line is "
           "our estimate of it from the length of the edges. As the gap closes, both meet the circuit.",
           "gap / post radius",
           "pull / pull by the circuit",
           {{"finite elements (dots), estimate (line)", named({"post radii: pull"}, "gap of ")}},
           false,
           true},
          {"Force of a coil on a magnet",
           joined,
           "distance of centres [mm]",
           "force [N]",
           {{"thick coil, 100 turns", named({"thick coil Ri=10"}, "z_mm=")},
            {"thin coil, 40 turns", named({"thin coil"}, "z_mm=")}}},
          {"Force between two magnets",
           joined,
           "gap [mm]",
           "force [N]",
           {{"radius 5 mm, length 10 mm", named({"equal 10x10"}, "gap_mm=")},
            {"radius 10 mm, length 5 mm", named({"equal discs 20x5"}, "gap_mm=")},
            {"radii 10 and 5 mm", named({"unequal r 10 and 5"}, "gap_mm=")}},
           true},
          {"B in a saturating spheroid, 10 : 1, in a uniform field", joined, "applied field [A/m]",
           "B inside [T]", laws, true},
          {"Demagnetising factor of cylinders, mean over the volume",
           joined,
           "length / diameter",
           "demagnetising factor",
           {{"susceptibility 1", named({"chi 1: Nm"}, "length/diameter ")},
            {"susceptibility 9", named({"chi 9: Nm"}, "length/diameter ")},
            {"infinite susceptibility", named({"chi inf: Nm"}, "length/diameter ")}},
           true}};
}

}  // namespace

void draw_figures(HtmlWriter& page, const std::vector<Check>& checks) {
  strips(page, checks);
  for (const Diagram& diagram : diagrams()) draw(page, diagram, checks);
}

}  // namespace coilpull
