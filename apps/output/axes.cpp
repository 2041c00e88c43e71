// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/axes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

/// 1, 2 or 5 times a power of ten, at least `least`.
double round_step(double least) {
  const double decade = std::pow(10, std::floor(std::log10(least)));
  for (const double times : {1.0, 2.0, 5.0})
    if (times * decade >= least * (1 - 1e-9)) return times * decade;
  return 10 * decade;
}

std::vector<double> decades(const Range& range) {
  std::vector<double> at;
  const int first = static_cast<int>(std::ceil(std::log10(range.from) - 1e-9));
  const int last = static_cast<int>(std::floor(std::log10(range.to) + 1e-9));
  for (int power = first; power <= last; ++power) at.push_back(std::pow(10, power));
  return at;
}

}  // namespace

double Range::part(double value) const {
  return logarithmic ? std::log(value / from) / std::log(to / from) : (value - from) / (to - from);
}

Range range_of(const std::vector<double>& values) {
  double least = std::numeric_limits<double>::infinity(), most = -least;
  for (const double value : values)
    if (std::isfinite(value)) least = std::min(least, value), most = std::max(most, value);
  if (least > most) return {0, 1};
  const double extent = most - least, size = std::max(std::abs(least), std::abs(most));
  if (extent <= 1e-9 * size || extent == 0) {
    const double around = size > 0 ? 0.1 * size : 1;
    return {least - around, most + around};
  }
  return {least - 0.04 * extent, most + 0.04 * extent};
}

std::vector<double> ticks(const Range& range, int wanted) {
  if (range.logarithmic) return decades(range);
  const double step = round_step((range.to - range.from) / wanted);
  const double first = std::ceil(range.from / step - 1e-9), last = std::floor(range.to / step + 1e-9);
  std::vector<double> at;
  if (!(last - first <= 10.0 * wanted))
    return at;  // no numbers, or none between which a step makes a difference
  for (int k = 0; k <= static_cast<int>(last - first); ++k) {
    const double tick = (first + k) * step;
    if (at.empty() || tick > at.back()) at.push_back(tick);
  }
  return at;
}

std::vector<std::string> tick_words(const Range& range, const std::vector<double>& at) {
  if (range.logarithmic) {
    std::vector<std::string> words;
    words.reserve(at.size());
    for (const double value : at) words.push_back(rounded(value, value < 1e6 ? 6 : 1));
    return words;
  }
  double largest = 0, step = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < at.size(); ++i) {
    largest = std::max(largest, std::abs(at[i]));
    if (i > 0) step = std::min(step, std::abs(at[i] - at[i - 1]));
  }
  if (!std::isfinite(step)) step = largest;
  std::vector<std::string> words;
  for (double value : at) {
    if (std::abs(value) <= 1e-9 * step) value = 0;  // also -0
    char text[64];
    const bool plain = largest < 1e5 && step >= 0.99e-4;
    const int decimals = step > 0 ? std::max(0, static_cast<int>(-std::floor(std::log10(step * 1.0001)))) : 0;
    const int digits =
        step > 0 ? std::max(0, static_cast<int>(std::floor(std::log10(largest / step * 1.0001)))) : 0;
    if (plain || value == 0)
      std::snprintf(text, sizeof text, "%.*f", value == 0 ? 0 : decimals, value);
    else
      std::snprintf(text, sizeof text, "%.*e", digits > 4 ? 4 : digits, value);
    words.emplace_back(text);
  }
  return words;
}

Spot Axes::spot(double x_value, double y_value) const {
  return {area.x_from + x.part(x_value) * (area.x_to - area.x_from),
          area.y_to - y.part(y_value) * (area.y_to - area.y_from)};
}

void draw_axes(Canvas& canvas, const Axes& axes) {
  const Area& area = axes.area;
  const Lettering numbers{look::small_size, look::quiet, 0.5};
  const Pen grid{look::faint, 0.8}, zero{{0.55, 0.55, 0.57}, 1}, edge{{0.55, 0.55, 0.57}, 0.9};

  const std::vector<double> along = ticks(axes.x, static_cast<int>((area.x_to - area.x_from) / 75));
  const std::vector<std::string> along_words = tick_words(axes.x, along);
  for (std::size_t i = 0; i < along.size(); ++i) {
    const double x = axes.spot(along[i], axes.y.from).x;
    canvas.stroke(Line{{x, area.y_from}, {x, area.y_to}}, grid);
    canvas.text({x, area.y_to + 13}, along_words[i], numbers);
  }
  const std::vector<double> upward =
      ticks(axes.y, std::max(3, static_cast<int>((area.y_to - area.y_from) / 48)));
  const std::vector<std::string> upward_words = tick_words(axes.y, upward);
  Lettering right = numbers;
  right.anchor = 1;
  double widest = 0;
  for (std::size_t i = 0; i < upward.size(); ++i) {
    const double y = axes.spot(axes.x.from, upward[i]).y;
    const bool is_zero = std::abs(upward[i]) < 1e-9 * (axes.y.to - axes.y.from);
    canvas.stroke(Line{{area.x_from, y}, {area.x_to, y}}, is_zero ? zero : grid);
    canvas.text({area.x_from - 7, y}, upward_words[i], right);
    widest = std::max(widest, canvas.text_length(upward_words[i], look::small_size));
  }
  canvas.stroke(Line{{area.x_from, area.y_to}, {area.x_to, area.y_to}}, edge);
  canvas.stroke(Line{{area.x_from, area.y_from}, {area.x_from, area.y_to}}, edge);
  canvas.text({(area.x_from + area.x_to) / 2, area.y_to + 32}, axes.x_words,
              {look::text_size, look::ink, 0.5});
  canvas.text({area.x_from - widest - 20, (area.y_from + area.y_to) / 2}, axes.y_words,
              {look::text_size, look::ink, 0.5, true});
}

void draw_title(Canvas& canvas, const std::string& title, const std::string& below, double x_from) {
  const double room = canvas.width() - x_from - 16;
  canvas.text({x_from, 24}, canvas.shortened(title, room, look::title_size, true),
              {look::title_size, look::ink, 0, false, true});
  canvas.text({x_from, 44}, canvas.shortened(below, room, look::small_size + 0.5),
              {look::small_size + 0.5, look::quiet});
}

}  // namespace coilpull
