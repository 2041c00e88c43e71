// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "apps/device_file/bad_device.hpp"
#include "apps/device_file/editable_text.hpp"
#include "apps/motion/stroke_choice.hpp"

namespace coilpull {

/// What one key of the device file may be.
struct Choices {
  std::string path;                 ///< "coil.drive.turns"
  Place place;                      ///< in the variants file
  std::vector<std::string> values;  ///< TOML; empty: a range without steps
  double from = 0, to = 0;          ///< then
};

/// How a number strays from the value it has.
struct Stray {
  std::string path;
  Place place;
  enum class Law { uniform, normal } law = Law::uniform;
  double reach = 0;  ///< half width of the uniform one, standard deviation of the normal one; unit of the key
};

/// A number that is computed from that of another key: times * other + plus.
struct Follower {
  std::string path, leader;
  Place place;
  double times = 1, plus = 0;
};

struct Goal {
  std::string figure;  ///< one of figure_names()
  bool most = true;    ///< false: the least
  Place place = {};
};

struct Limit {
  std::string figure;
  double above = -std::numeric_limits<double>::infinity(), below = std::numeric_limits<double>::infinity();
  Place place = {};
};

/// The stroke that every device runs when one of its figures is wanted.
struct StrokeWish {
  Place place;               ///< [stroke], or the first goal or limit that asks for it
  std::string circuit = {};  ///< empty: the first that varies
  StrokeChoice choice = {};
  bool best = false;                           ///< each variant switched where it brings the highest speed
  std::map<std::string, Place> place_of = {};  ///< of what is stated, by key
};

/// How far the best designs are made better, see improve.hpp.
struct ImproveWish {
  std::size_t starts = 3;   ///< best designs to start from
  std::size_t tables = 40;  ///< at most, from each
};

/// A device and what varies.
struct VariantsFile {
  std::string file_name;
  std::filesystem::path device_path;
  EditableText device_text;
  std::map<std::string, std::string> set;      ///< the same in every variant: TOML by path
  std::vector<Choices> vary;                   ///< each with each, the first slowest
  std::vector<std::vector<Choices>> together;  ///< in one group: first with first, second with second
  std::vector<Choices> hypercube;              ///< spread evenly in every direction at once
  std::size_t hypercube_points = 0;
  unsigned hypercube_seed = 1;
  std::vector<Stray> tolerances;
  std::size_t draws = 0;  ///< of all tolerances at once; the first is the device as drawn
  unsigned draws_seed = 1;
  std::vector<Follower> follow;
  std::vector<Goal> goals;  ///< at most three
  std::vector<Limit> limits;
  std::optional<StrokeWish> stroke = {};
  std::optional<ImproveWish> improve = {};
  std::string sha256 = {};  ///< of the text
};

/// Reads the variants file and the text of its device file, and holds every key path against the latter.
/// @throws BadDevice  with file, line, key, value, what is allowed
VariantsFile read_variants_file(const std::filesystem::path& path);
/// The same of a text that stands, or could stand, at this path.
VariantsFile read_variants_text(std::string_view words, const std::filesystem::path& path);

}  // namespace coilpull
