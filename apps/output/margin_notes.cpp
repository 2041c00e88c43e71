// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/margin_notes.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/axes.hpp"
#include "apps/output/label_spread.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

constexpr double number_size = 10.5;
const Pen extension{{0.66, 0.66, 0.69}, 0.6};

std::string mm_words(double metres) {
  const double mm = std::abs(metres) < 1e-10 ? 0 : in_mm(metres);
  return rounded(mm, 5);
}

/// Each number once, where it is met first, as long as there is room.
struct Labels {
  std::vector<Dimension> places = {};
  std::vector<std::string> words = {};
  std::vector<double> sizes = {};
};

template <class SizeOf>
Labels chosen(const std::vector<Dimension>& places, double room, SizeOf size_of) {
  Labels labels;
  double used = 0;
  for (const Dimension& place : places) {
    const std::string words = mm_words(place.value);
    if (std::find(labels.words.begin(), labels.words.end(), words) != labels.words.end()) continue;
    const double size = size_of(words);
    if (used + size > room) continue;
    used += size;
    labels.places.push_back(place);
    labels.words.push_back(words);
    labels.sizes.push_back(size);
  }
  return labels;
}

/// Row of each callout, 0 the lowest.
std::vector<int> rows_of(const Canvas& canvas, const std::vector<Callout>& callouts, double width) {
  double total = 0;
  for (const Callout& callout : callouts) total += canvas.text_length(callout.words, look::small_size) + 14;
  const int rows = std::max(1, static_cast<int>(std::ceil(total / width)));
  std::vector<std::size_t> order(callouts.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return callouts[a].at.x < callouts[b].at.x; });
  std::vector<int> row(callouts.size());
  for (std::size_t i = 0; i < order.size(); ++i) row[order[i]] = static_cast<int>(i) % rows;
  return row;
}

}  // namespace

void dimension_z(Canvas& canvas, const std::vector<Dimension>& places, double y, const Area& room) {
  const Labels labels = chosen(places, room.x_to - room.x_from, [&](const std::string& words) {
    return canvas.text_length(words, number_size) + 9;
  });
  std::vector<double> wishes;
  for (const Dimension& place : labels.places) wishes.push_back(place.from.x);
  const std::vector<double> x = spread(wishes, labels.sizes, room.x_from, room.x_to);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const Spot from = labels.places[i].from;
    canvas.stroke(Line{{from.x, from.y + 3}, {from.x, y}, {x[i], y + 12}, {x[i], y + 16}}, extension);
    canvas.text({x[i], y + 24}, labels.words[i], {number_size, look::ink, 0.5});
  }
  if (x.empty()) return;
  const double first = *std::min_element(x.begin(), x.end());
  canvas.text({first - 30, y + 24}, "z", {number_size, look::quiet, 0.5});
}

void dimension_r(Canvas& canvas, const std::vector<Dimension>& places, double x, const Area& room) {
  constexpr double line_height = 14;
  const Labels labels =
      chosen(places, room.y_to - room.y_from, [](const std::string&) { return line_height; });
  std::vector<double> wishes;
  for (const Dimension& place : labels.places) wishes.push_back(place.from.y);
  const std::vector<double> y = spread(wishes, labels.sizes, room.y_from, room.y_to);
  for (std::size_t i = 0; i < y.size(); ++i) {
    const Spot from = labels.places[i].from;
    canvas.stroke(Line{{from.x + 3, from.y}, {x, from.y}, {x + 12, y[i]}, {x + 16, y[i]}}, extension);
    canvas.text({x + 20, y[i]}, labels.words[i], {number_size, look::ink});
  }
  if (y.empty()) return;
  const double top = *std::min_element(y.begin(), y.end());
  canvas.text({x + 22, top - line_height - 2}, "r", {number_size, look::quiet});
}

int callout_rows(const Canvas& canvas, const std::vector<Callout>& callouts, double width) {
  if (callouts.empty()) return 0;
  const std::vector<int> rows = rows_of(canvas, callouts, width);
  return 1 + *std::max_element(rows.begin(), rows.end());
}

void draw_callouts(Canvas& canvas, const std::vector<Callout>& callouts, double x_from, double x_to,
                   double y_lowest) {
  const std::vector<int> row = rows_of(canvas, callouts, x_to - x_from);
  for (int k = 0; k < callout_rows(canvas, callouts, x_to - x_from); ++k) {
    std::vector<std::size_t> here;
    std::vector<double> wishes, sizes;
    for (std::size_t i = 0; i < callouts.size(); ++i)
      if (row[i] == k) {
        here.push_back(i);
        wishes.push_back(callouts[i].at.x);
        sizes.push_back(canvas.text_length(callouts[i].words, look::small_size) + 14);
      }
    const std::vector<double> x = spread(wishes, sizes, x_from, x_to);
    const double y = y_lowest - k * callout_row_height;
    for (std::size_t i = 0; i < here.size(); ++i) {
      const Callout& callout = callouts[here[i]];
      const Colour colour = callout.quiet ? look::quiet : look::ink;
      canvas.stroke(Line{{x[i], y + 8}, callout.at}, {covering(colour, 0.6), 0.7});
      if (callout.dot) canvas.disc(callout.at, 1.7, colour);
      canvas.text({x[i], y}, callout.words, {look::small_size, colour, 0.5, false, false, k > 0});
    }
  }
}

}  // namespace coilpull
