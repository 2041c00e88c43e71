// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/keys.hpp"
#include "apps/device_file/nearest_name.hpp"
#include "apps/device_file/table.hpp"
#include "apps/variants/figures.hpp"
#include "apps/variants/variants_file.hpp"

namespace coilpull {
namespace {

const char* const choices_example =
    "For example [120, 180], [\"demo soft steel\", \"team 13 steel\"] or { from = 120, to = 240, points = 5 "
    "}.";

/// A node as TOML of one line.
std::string as_toml(const toml::node& node) {
  std::string words;
  if (const toml::array* list = node.as_array()) {
    for (const toml::node& element : *list) words += (words.empty() ? "" : ", ") + as_toml(element);
    return "[" + words + "]";
  }
  if (const toml::table* table = node.as_table()) {
    for (const auto& [key, value] : *table)
      words += (words.empty() ? "" : ", ") + std::string(key.str()) + " = " + as_toml(value);
    return "{ " + words + " }";
  }
  if (const auto* text = node.as_string()) return toml_text(text->get());
  if (const auto* truth = node.as_boolean()) return truth->get() ? "true" : "false";
  return toml_number(node.value<double>().value_or(0));
}

struct Leaf {
  std::string path;
  Value value;
};

/// Values below a table; keys with dots and headers with dots come to the same path.
void add_leaves(const toml::table& node, const SourceText& text, const Place& place,
                std::vector<Leaf>& leaves) {
  for (const auto& [key, value] : Table(node, text, place).in_file_order()) {
    const toml::table* inner = value.node->as_table();
    if (inner != nullptr && !inner->is_inline())
      add_leaves(*inner, text, value.place, leaves);
    else
      leaves.push_back({value.place.key, value});
  }
}

class Reader {
public:
  Reader(const Table& root, const EditableText& device) : root_(root), device_(device) {}

  enum class Again { no, yes };  ///< whether a path may stand elsewhere too

  /// The leaves of a table of key paths, each held against the device file; `own`: keys that are no paths.
  std::vector<Leaf> paths_of(const Value& table, const std::vector<std::string>& own = {},
                             Again again = Again::no) {
    Place place = table.place;
    place.table = std::exchange(place.key, "");
    place.value.clear();
    const toml::table* node = table.node->as_table();
    if (node == nullptr) refuse(table.place, "needs a table.", "Write the header [" + place.table + "].");
    std::vector<Leaf> leaves, paths;
    add_leaves(*node, root_.text(), place, leaves);
    for (const Leaf& leaf : leaves) {
      if (std::find(own.begin(), own.end(), leaf.path) != own.end()) continue;
      need_in_device(leaf.path, leaf.value.place, own);
      enter(leaf, again);
      paths.push_back(leaf);
    }
    return paths;
  }

  void need_in_device(const std::string& path, const Place& place, std::vector<std::string> also) const {
    if (device_.has(path)) return;
    for (const std::string& known : device_.paths()) also.push_back(known);
    const auto meant = nearest_name(path, also);
    refuse(place, device_.file_name() + " has no such key" + (meant ? "; did you mean " + *meant + "?" : "."),
           "What varies stands in the device file first, spelt as here: " + listed(also) + ".");
  }

private:
  /// @throws BadDevice  the path stands already, or inside another
  void enter(const Leaf& leaf, Again again) {
    for (const Leaf& other : entered_) {
      const std::string &a = leaf.path, &b = other.path;
      const bool nested = a.rfind(b + ".", 0) == 0 || b.rfind(a + ".", 0) == 0;
      if ((a == b && again == Again::no) || nested)
        refuse(leaf.value.place,
               "line " + std::to_string(other.value.place.line) + " says it for " + b + " already.",
               "Each key of the device file is set, varied or following in one place only.");
    }
    entered_.push_back(leaf);
  }

  const Table& root_;
  const EditableText& device_;
  std::vector<Leaf> entered_;
};

std::size_t count_of(const Value& value, long least) {
  const long count = whole_number(value);
  if (count < least || count > static_cast<long>(most_rows))
    refuse(value.place, "has to be a whole number from " + std::to_string(least) + " to " +
                            std::to_string(most_rows) + ".");
  return static_cast<std::size_t>(count);
}

/// { from, to } and, where `stepped`, points
Choices read_range(const Leaf& leaf, const SourceText& text, bool stepped) {
  const Table range = inline_table(leaf.value, text, "{ from = 120, to = 240, points = 5 }");
  const Value from = range.need("from", "A range has from and to."),
              to = range.need("to", "A range has from and to.");
  Choices choices{leaf.path, leaf.value.place, {}, number(from), number(to)};
  if (!(choices.from < choices.to)) refuse(to.place, "has to be greater than from.");
  if (stepped) {
    const std::size_t points = count_of(range.need("points", "How many values, ends included."), 2);
    for (std::size_t k = 0; k < points; ++k) {
      const double part = static_cast<double>(k) / static_cast<double>(points - 1);
      const double value = k + 1 == points ? choices.to : choices.from + part * (choices.to - choices.from);
      choices.values.push_back(
          toml_number(std::strtod(toml_number(std::round(value * 1e9) / 1e9).c_str(), nullptr)));
    }
  }
  range.refuse_unread_keys();
  return choices;
}

Choices read_choices(const Leaf& leaf, const SourceText& text, bool stepped) {
  if (leaf.value.node->is_table()) return read_range(leaf, text, stepped);
  const toml::array* list = leaf.value.node->as_array();
  if (list == nullptr || list->empty())
    refuse(leaf.value.place, "needs a list or a range of what it may be.", choices_example);
  Choices choices{leaf.path, leaf.value.place, {}};
  for (const toml::node& element : *list) choices.values.push_back(as_toml(element));
  return choices;
}

std::vector<Choices> read_all_choices(const std::vector<Leaf>& leaves, const SourceText& text, bool stepped) {
  std::vector<Choices> all;
  for (const Leaf& leaf : leaves) all.push_back(read_choices(leaf, text, stepped));
  return all;
}

void read_set(const Table& root, Reader& reader, VariantsFile& file) {
  if (const auto set = root.find("set"))
    for (const Leaf& leaf : reader.paths_of(*set)) file.set[leaf.path] = as_toml(*leaf.value.node);
}

void read_vary(const Table& root, Reader& reader, VariantsFile& file) {
  if (const auto vary = root.find("vary"))
    file.vary = read_all_choices(reader.paths_of(*vary), root.text(), true);
}

/// [[together]], any number of them
void read_together(const Table& root, Reader& reader, VariantsFile& file) {
  const auto found = root.find("together");
  if (!found) return;
  const toml::array* groups = found->node->as_array();
  if (groups == nullptr)
    refuse(found->place, "is a list of groups.", "Write the header [[together]] with two brackets.");
  for (const toml::node& node : *groups) {
    Place place = found->place;
    place.line = static_cast<int>(node.source().begin.line);
    std::vector<Choices> group = read_all_choices(reader.paths_of({place, &node}), root.text(), true);
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

void read_hypercube(const Table& root, Reader& reader, VariantsFile& file) {
  const auto found = root.find("hypercube");
  if (!found) return;
  const Sampling sampling = read_sampling(*found, root.text(), "points");
  file.hypercube_points = sampling.count;
  file.hypercube_seed = sampling.seed;
  file.hypercube = read_all_choices(reader.paths_of(*found, {"points", "seed"}), root.text(), false);
  if (file.hypercube.empty())
    refuse(found->place, "nothing varies in it.", "For example coil.drive.turns = { from = 120, to = 240 }.");
}

Stray read_stray(const Leaf& leaf, const SourceText& text) {
  const char* const example = "{ plus_minus = 0.05 } or { sigma = 0.02 }";
  const Table table = inline_table(leaf.value, text, example);
  const auto half = table.find("plus_minus"), sigma = table.find("sigma");
  table.refuse_unread_keys();
  if (half.has_value() == sigma.has_value())
    refuse(leaf.value.place, "needs either plus_minus or sigma.",
           std::string("For example ") + example + ".");
  Stray stray{leaf.path, leaf.value.place, half ? Stray::Law::uniform : Stray::Law::normal,
              number(half ? *half : *sigma)};
  if (!(stray.reach > 0)) refuse((half ? *half : *sigma).place, "has to be greater than 0.");
  return stray;
}

void read_tolerances(const Table& root, Reader& reader, VariantsFile& file) {
  const auto found = root.find("tolerances");
  if (!found) return;
  const Sampling sampling = read_sampling(*found, root.text(), "draws");
  file.draws = sampling.count;
  file.draws_seed = sampling.seed;
  // a number that varies may stray from each of its values
  for (const Leaf& leaf : reader.paths_of(*found, {"draws", "seed"}, Reader::Again::yes))
    file.tolerances.push_back(read_stray(leaf, root.text()));
  if (file.tolerances.empty())
    refuse(found->place, "nothing strays in it.",
           "For example core.sleeve.tube.inner_radius_mm = { plus_minus = 0.05 }.");
}

void read_follow(const Table& root, Reader& reader, VariantsFile& file) {
  const auto found = root.find("follow");
  if (!found) return;
  for (const Leaf& leaf : reader.paths_of(*found)) {
    const char* const example = "{ key = \"core.sleeve.tube.outer_radius_mm\", plus = 0.5 }";
    const Table table = inline_table(leaf.value, root.text(), example);
    const Value key = table.need("key", std::string("For example ") + example);
    Follower follower{leaf.path, text(key), leaf.value.place};
    if (const auto times = table.find("times")) follower.times = number(*times);
    if (const auto plus = table.find("plus")) follower.plus = number(*plus);
    table.refuse_unread_keys();
    reader.need_in_device(follower.leader, key.place, {});
    file.follow.push_back(follower);
  }
}

std::string known_figure(const std::string& name, const Value& value) {
  const std::vector<std::string> known = figure_names();
  if (std::find(known.begin(), known.end(), name) == known.end())
    refuse(value.place, "no such figure. " + did_you_mean(name, known));
  return name;
}

void read_goals(const Table& root, VariantsFile& file) {
  if (const auto found = root.find("goals"))
    for (const auto& [name, value] : section(*found, root.text(), "work_J = \"most\"").in_file_order()) {
      const std::string wish = text(value);
      if (wish != "most" && wish != "least") refuse(value.place, "has to be \"most\" or \"least\".");
      file.goals.push_back({known_figure(name, value), wish == "most"});
      if (file.goals.size() > 3)
        refuse(value.place, "is a fourth goal.", "At most three; others can be [limits].");
    }
}

void read_limits(const Table& root, VariantsFile& file) {
  if (const auto found = root.find("limits"))
    for (const auto& [name, value] :
         section(*found, root.text(), "past_knee = { below = 0.01 }").in_file_order()) {
      const Table table = inline_table(value, root.text(), "{ below = 0.01 } or { above = 2 }");
      Limit limit{known_figure(name, value)};
      if (const auto above = table.find("above")) limit.above = number(*above);
      if (const auto below = table.find("below")) limit.below = number(*below);
      table.refuse_unread_keys();
      if (!table.has("above") && !table.has("below")) refuse(value.place, "needs above, below or both.");
      file.limits.push_back(limit);
    }
}

}  // namespace

VariantsFile read_variants_file(const std::filesystem::path& path) {
  const std::string words = text_of_file(path, "a variants file");
  const SourceText source = source_text(words, path.string());
  const toml::table parsed = parsed_toml(words, source);
  const Table root(parsed, source, Place{path.string()});
  for (const char* key :
       {"device", "set", "vary", "together", "hypercube", "tolerances", "follow", "goals", "limits"})
    root.find(key);
  root.refuse_unread_keys();
  const Value device =
      root.need("device", "The device file whose variants are wanted, for example device = \"pusher.toml\".");
  const std::filesystem::path device_path = path.parent_path() / text(device);
  if (!std::filesystem::is_regular_file(device_path))
    refuse(device.place, "there is no such file.", "The path starts in the folder of the variants file.");
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
  Reader reader(root, file.device_text);
  read_set(root, reader, file);
  read_vary(root, reader, file);
  read_together(root, reader, file);
  read_hypercube(root, reader, file);
  read_tolerances(root, reader, file);
  read_follow(root, reader, file);
  read_goals(root, file);
  read_limits(root, file);
  if (file.vary.empty() && file.together.empty() && file.hypercube.empty() && file.tolerances.empty())
    refuse(root.place(), "nothing varies in it.",
           "It needs [vary], [[together]], [hypercube] or [tolerances].");
  return file;
}

}  // namespace coilpull
