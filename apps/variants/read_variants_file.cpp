// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "apps/device_file/file_beside.hpp"
#include "apps/device_file/keys.hpp"
#include "apps/device_file/nearest_name.hpp"
#include "apps/device_file/table.hpp"
#include "apps/output/sha256.hpp"
#include "apps/variants/figure_words.hpp"
#include "apps/variants/key_paths.hpp"
#include "apps/variants/ranges.hpp"
#include "apps/variants/read_choices.hpp"
#include "apps/variants/read_stroke.hpp"
#include "apps/variants/variants_file.hpp"

namespace coilpull {
namespace {

void read_set(const Table& root, KeyPaths& paths, VariantsFile& file) {
  if (const auto set = root.find("set"))
    for (const KeyPath& key : paths.of(*set)) file.set[key.path] = as_toml(*key.value.node);
}

void read_vary(const Table& root, KeyPaths& paths, VariantsFile& file) {
  if (const auto vary = root.find("vary")) file.vary = read_all_choices(paths.of(*vary), root.text(), true);
}

/// [[together]], any number of them
void read_together(const Table& root, KeyPaths& paths, VariantsFile& file) {
  const auto found = root.find("together");
  if (!found) return;
  const toml::array* groups = found->node->as_array();
  if (groups == nullptr)
    refuse(found->place, "is a list of groups.", "Write the header [[together]] with two brackets.");
  for (const toml::node& node : *groups) {
    Place place = found->place;
    place.line = static_cast<int>(node.source().begin.line);
    std::vector<Choices> group = read_all_choices(paths.of({place, &node}), root.text(), true);
    for (const Choices& choices : group)
      if (choices.values.size() != group.front().values.size())
        refuse(choices.place,
               "has " + std::to_string(choices.values.size()) + " values, and " + group.front().path +
                   " has " + std::to_string(group.front().values.size()) + ".",
               "In one [[together]] the first goes with the first, the second with the second: all need "
               "equally many.");
    if (!group.empty()) file.together.push_back(std::move(group));
  }
}

struct Sampling {
  std::size_t count;
  unsigned seed;
};

Sampling read_sampling(const Value& table, const SourceText& text, const std::string& count_key) {
  const Table own = section(table, text, count_key + " = 100");
  Sampling sampling{
      count_of(own.need(count_key, "How many to draw, for example " + count_key + " = 100."), 1), 1};
  if (const auto seed = own.find("seed")) sampling.seed = static_cast<unsigned>(count_of(*seed, 0));
  return sampling;
}

void read_hypercube(const Table& root, KeyPaths& paths, VariantsFile& file) {
  const auto found = root.find("hypercube");
  if (!found) return;
  const Sampling sampling = read_sampling(*found, root.text(), "points");
  file.hypercube_points = sampling.count;
  file.hypercube_seed = sampling.seed;
  file.hypercube = read_all_choices(paths.of(*found, {"points", "seed"}), root.text(), false);
  if (file.hypercube.empty())
    refuse(found->place, "nothing varies in it.", "For example coil.drive.turns = { from = 120, to = 240 }.");
}

Stray read_stray(const KeyPath& key, const SourceText& text) {
  const char* const example = "{ plus_minus = 0.05 } or { sigma = 0.02 }";
  const Table table = inline_table(key.value, text, example);
  const auto half = table.find("plus_minus"), sigma = table.find("sigma");
  table.refuse_unread_keys();
  if (half.has_value() == sigma.has_value())
    refuse(key.value.place, "needs either plus_minus or sigma.", std::string("For example ") + example + ".");
  Stray stray{key.path, key.value.place, half ? Stray::Law::uniform : Stray::Law::normal,
              number(half ? *half : *sigma)};
  if (!(stray.reach > 0)) refuse((half ? *half : *sigma).place, "has to be greater than 0.");
  return stray;
}

void read_tolerances(const Table& root, KeyPaths& paths, VariantsFile& file) {
  const auto found = root.find("tolerances");
  if (!found) return;
  const Sampling sampling = read_sampling(*found, root.text(), "draws");
  file.draws = sampling.count;
  file.draws_seed = sampling.seed;
  // a number that varies may stray from each of its values
  for (const KeyPath& key : paths.of(*found, {"draws", "seed"}, KeyPaths::Again::yes))
    file.tolerances.push_back(read_stray(key, root.text()));
  if (file.tolerances.empty())
    refuse(found->place, "nothing strays in it.",
           "For example core.sleeve.tube.inner_radius_mm = { plus_minus = 0.05 }.");
}

void read_follow(const Table& root, KeyPaths& paths, VariantsFile& file) {
  const auto found = root.find("follow");
  if (!found) return;
  for (const KeyPath& key : paths.of(*found)) {
    const char* const example = "{ key = \"core.sleeve.tube.outer_radius_mm\", plus = 0.5 }";
    const Table table = inline_table(key.value, root.text(), example);
    const Value leader = table.need("key", std::string("For example ") + example);
    Follower follower{key.path, text(leader), key.value.place};
    if (const auto times = table.find("times")) follower.times = number(*times);
    if (const auto plus = table.find("plus")) follower.plus = number(*plus);
    table.refuse_unread_keys();
    paths.need_in_device(follower.leader, leader.place, {});
    file.follow.push_back(follower);
  }
}

/// A figure of a stroke brings the stroke, as the plain choice has it unless [stroke] says otherwise.
std::string known_figure(const std::string& name, const Value& value, VariantsFile& file) {
  const std::vector<std::string> known = figure_names();
  if (std::find(known.begin(), known.end(), name) == known.end())
    refuse(value.place, "no such figure. " + did_you_mean(name, known));
  if (is_stroke_figure(name) && !file.stroke) file.stroke = StrokeWish{value.place};
  return name;
}

void read_goals(const Table& root, VariantsFile& file) {
  if (const auto found = root.find("goals"))
    for (const auto& [name, value] : section(*found, root.text(), "work_J = \"most\"").in_file_order()) {
      const std::string wish = text(value);
      if (wish != "most" && wish != "least") refuse(value.place, "has to be \"most\" or \"least\".");
      file.goals.push_back({known_figure(name, value, file), wish == "most", value.place});
      if (file.goals.size() > 3)
        refuse(value.place, "is a fourth goal.", "At most three; others can be [limits].");
    }
}

void read_limits(const Table& root, VariantsFile& file) {
  if (const auto found = root.find("limits"))
    for (const auto& [name, value] :
         section(*found, root.text(), "past_knee = { below = 0.01 }").in_file_order()) {
      const Table table = inline_table(value, root.text(), "{ below = 0.01 } or { above = 2 }");
      Limit limit{known_figure(name, value, file)};
      limit.place = value.place;
      if (const auto above = table.find("above")) limit.above = number(*above);
      if (const auto below = table.find("below")) limit.below = number(*below);
      table.refuse_unread_keys();
      if (!table.has("above") && !table.has("below")) refuse(value.place, "needs above, below or both.");
      file.limits.push_back(limit);
    }
}

void read_improve(const Table& root, VariantsFile& file) {
  const auto found = root.find("improve");
  if (!found) return;
  const Table own = section(*found, root.text(), "starts = 3");
  file.improve = ImproveWish{};
  if (const auto starts = own.find("starts")) file.improve->starts = count_of(*starts, 1);
  if (const auto tables = own.find("tables")) file.improve->tables = count_of(*tables, 1);
  own.refuse_unread_keys();
  if (file.goals.empty())
    refuse(own.place(), "there is no goal to come nearer to.",
           "Write [goals], for example switched_work_J = \"most\"; the first is the one that counts.");
  if (ranges_of(file).empty())
    refuse(own.place(), "no number has a range.",
           "Give one in [vary] or [hypercube], for example core.sleeve.tube.outer_radius_mm = { from = 6.5, "
           "to = 7.2 }; in [vary] with points. Turns, points and lists stay as they are.");
}

}  // namespace

VariantsFile read_variants_file(const std::filesystem::path& path) {
  return read_variants_text(text_of_file(path, "a variants file"), path);
}

VariantsFile read_variants_text(std::string_view words, const std::filesystem::path& path) {
  const SourceText source = source_text(words, path.string());
  const toml::table parsed = parsed_toml(words, source);
  const Table root(parsed, source, Place{path.string()});
  for (const char* key : {"device", "set", "vary", "together", "hypercube", "tolerances", "follow", "goals",
                          "limits", "stroke", "improve"})
    root.find(key);
  root.refuse_unread_keys();
  const Value device =
      root.need("device", "The device file whose variants are wanted, for example device = \"pusher.toml\".");
  const std::filesystem::path device_path =
      file_beside(device, path.parent_path(), "device file", "variants file");
  VariantsFile file{path.string(),
                    device_path,
                    EditableText(text_of_file(device_path, "a device file"), device_path.string()),
                    {},
                    {},
                    {},
                    {},
                    0,
                    1,
                    {},
                    0,
                    1,
                    {},
                    {},
                    {}};
  file.sha256 = sha256(words);
  KeyPaths paths(root, file.device_text);
  read_set(root, paths, file);
  read_vary(root, paths, file);
  read_together(root, paths, file);
  read_hypercube(root, paths, file);
  read_tolerances(root, paths, file);
  read_follow(root, paths, file);
  file.stroke = read_stroke(root);
  read_goals(root, file);
  read_limits(root, file);
  read_improve(root, file);
  if (file.vary.empty() && file.together.empty() && file.hypercube.empty() && file.tolerances.empty())
    refuse(root.place(), "nothing varies in it.",
           "It needs [vary], [[together]], [hypercube] or [tolerances].");
  return file;
}

}  // namespace coilpull
