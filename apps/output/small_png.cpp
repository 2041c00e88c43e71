// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/small_png.hpp"

#include <png.h>

#include <algorithm>
#include <stdexcept>
#include <unordered_map>

namespace coilpull {
namespace {

constexpr std::size_t most_colours = 256;

struct Counted {
  unsigned rgb;
  std::size_t pixels;
};

int channel(unsigned rgb, int shift) { return static_cast<int>(rgb >> shift & 0xff); }

/// Colours begin .. end of one list, and along which channel they differ most.
struct Box {
  std::size_t begin, end;
  int shift, extent;
};

Box box_of(const std::vector<Counted>& colours, std::size_t begin, std::size_t end) {
  Box box{begin, end, 0, -1};
  for (const int shift : {0, 8, 16}) {
    int low = 255, high = 0;
    for (std::size_t k = begin; k < end; ++k) {
      low = std::min(low, channel(colours[k].rgb, shift));
      high = std::max(high, channel(colours[k].rgb, shift));
    }
    if (high - low > box.extent) box.shift = shift, box.extent = high - low;
  }
  return box;
}

/// Halves of a box of two colours or more, cut where half of its extent lies: pale edges of letters, of which
/// there are many, get no more boxes than the shades of a field.
std::pair<Box, Box> halves(std::vector<Counted>& colours, const Box& box) {
  const auto at = [&](std::size_t k) { return colours.begin() + static_cast<std::ptrdiff_t>(k); };
  std::sort(at(box.begin), at(box.end), [&](const Counted& a, const Counted& b) {
    const int x = channel(a.rgb, box.shift), y = channel(b.rgb, box.shift);
    return x != y ? x < y : a.rgb < b.rgb;
  });
  const int middle =
      (channel(at(box.begin)->rgb, box.shift) + channel(at(box.end - 1)->rgb, box.shift) + 1) / 2;
  std::size_t cut = box.begin + 1;
  while (cut + 1 < box.end && channel(at(cut)->rgb, box.shift) < middle) ++cut;
  return {box_of(colours, box.begin, cut), box_of(colours, cut, box.end)};
}

std::vector<Box> boxes_of(std::vector<Counted>& colours) {
  std::vector<Box> boxes = {box_of(colours, 0, colours.size())};
  while (boxes.size() < most_colours) {
    const auto widest = std::max_element(boxes.begin(), boxes.end(),
                                         [](const Box& a, const Box& b) { return a.extent < b.extent; });
    if (widest->extent == 0) break;  // every colour has its box
    const auto [lower, upper] = halves(colours, *widest);
    *widest = lower;
    boxes.push_back(upper);
  }
  return boxes;
}

}  // namespace

std::string small_png(const Pixels& picture) {
  std::unordered_map<unsigned, std::size_t> counts;
  for (const unsigned rgb : picture.rgb) ++counts[rgb & 0xffffff];
  std::vector<Counted> colours;
  colours.reserve(counts.size());
  for (const auto& [rgb, pixels] : counts) colours.push_back({rgb, pixels});
  std::sort(colours.begin(), colours.end(), [](const Counted& a, const Counted& b) { return a.rgb < b.rgb; });

  std::unordered_map<unsigned, png_byte> index_of;
  std::vector<png_byte> palette;
  for (const Box& box : boxes_of(colours)) {
    const auto begin = colours.begin() + static_cast<std::ptrdiff_t>(box.begin);
    const auto end = colours.begin() + static_cast<std::ptrdiff_t>(box.end);
    const unsigned shown = std::max_element(begin, end, [](const Counted& a, const Counted& b) {
                             return a.pixels < b.pixels;
                           })->rgb;
    for (auto one = begin; one != end; ++one) index_of[one->rgb] = static_cast<png_byte>(palette.size() / 3);
    for (const int shift : {16, 8, 0}) palette.push_back(static_cast<png_byte>(channel(shown, shift)));
  }
  std::vector<png_byte> indices;
  indices.reserve(picture.rgb.size());
  for (const unsigned rgb : picture.rgb) indices.push_back(index_of[rgb & 0xffffff]);

  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(picture.columns);
  image.height = static_cast<png_uint_32>(picture.rows);
  image.format = PNG_FORMAT_RGB_COLORMAP;
  image.colormap_entries = static_cast<png_uint_32>(palette.size() / 3);
  png_alloc_size_t size = 0;
  std::string bytes;
  // Asked for its size first, then written.
  if (png_image_write_to_memory(&image, nullptr, &size, 0, indices.data(), 0, palette.data()) != 0) {
    bytes.resize(size);
    if (png_image_write_to_memory(&image, bytes.data(), &size, 0, indices.data(), 0, palette.data()) != 0)
      return bytes;
  }
  throw std::runtime_error(std::string("a picture cannot be written: ") + image.message);
}

}  // namespace coilpull
