// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/svg_sheet.hpp"

#include <cmath>

#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string tenth(double points) { return shortest(std::round(10 * points) / 10); }

}  // namespace

SvgSheet::SvgSheet(HtmlWriter& page, const std::string& title, double width, double height) : page_(page) {
  page_.open("figure");
  page_.element("h3", title);
  page_.open(
      "svg",
      {{"viewBox", "0 0 " + tenth(width) + " " + tenth(height)}, {"role", "img"}, {"aria-label", title}});
}

void SvgSheet::line(const Line& spots, const std::string& kind) {
  std::string points;
  for (const Spot& spot : spots) points += (points.empty() ? "" : " ") + tenth(spot.x) + "," + tenth(spot.y);
  page_.element("polyline", "", {{"class", kind}, {"points", points}});
}

void SvgSheet::disc(Spot centre, const std::string& kind) {
  page_.element("circle", "",
                {{"class", kind}, {"cx", tenth(centre.x)}, {"cy", tenth(centre.y)}, {"r", "3.2"}});
}

void SvgSheet::text(Spot at, const std::string& words, const std::string& kind) {
  page_.element("text", words, {{"class", kind}, {"x", tenth(at.x)}, {"y", tenth(at.y + 4)}});
}

void SvgSheet::upward_text(Spot at, const std::string& words, const std::string& kind) {
  page_.element(
      "text", words,
      {{"class", kind}, {"transform", "translate(" + tenth(at.x) + " " + tenth(at.y) + ") rotate(-90)"}});
}

void SvgSheet::axes(const Axes& axes) {
  const Area& area = axes.area;
  const std::vector<double> along = ticks(axes.x, 5), upward = ticks(axes.y, 5);
  const std::vector<std::string> along_words = tick_words(axes.x, along),
                                 upward_words = tick_words(axes.y, upward);
  for (std::size_t i = 0; i < along.size(); ++i) {
    const double x = axes.spot(along[i], axes.y.from).x;
    line({{x, area.y_from}, {x, area.y_to}}, "grid");
    text({x, area.y_to + 13}, along_words[i], "tick middle");
  }
  for (std::size_t i = 0; i < upward.size(); ++i) {
    const double y = axes.spot(axes.x.from, upward[i]).y;
    line({{area.x_from, y}, {area.x_to, y}}, "grid");
    text({area.x_from - 6, y}, upward_words[i], "tick end");
  }
  line({{area.x_from, area.y_from}, {area.x_from, area.y_to}, {area.x_to, area.y_to}}, "edge");
  text({(area.x_from + area.x_to) / 2, area.y_to + 32}, axes.x_words, "middle");
  upward_text({14, (area.y_from + area.y_to) / 2}, axes.y_words, "middle");
}

void SvgSheet::end(const std::string& caption) {
  page_.close();
  page_.element("figcaption", caption);
  page_.close();
}

}  // namespace coilpull
