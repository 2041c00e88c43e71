// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/plan.hpp"

#include <algorithm>

#include "apps/device_file/canonical_text.hpp"
#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/table.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/sha256.hpp"
#include "apps/variants/pulse_figures.hpp"
#include "apps/variants/read_stroke.hpp"
#include "apps/variants/seeded_draws.hpp"
#include "apps/variants/stroke_refusal.hpp"

namespace coilpull {
namespace {

using Values = std::map<std::string, std::string>;

constexpr std::size_t most_variants = 1000000;

/// Six digits: two machines whose logarithms differ in the last place draw the same number.
std::string drawn(double value) { return toml_rounded(value, 6); }

/// Every list so far with every one of these added.
void cross(std::vector<Values>& all, const std::vector<Values>& more, const Place& place) {
  if (more.size() > most_variants / std::max<std::size_t>(all.size(), 1))
    refuse(place, "brings the number of variants above " + std::to_string(most_variants) + ".",
           "Fewer values, or [hypercube], which takes as many as it is told.");
  std::vector<Values> crossed;
  for (const Values& one : all)
    for (const Values& other : more) {
      crossed.push_back(one);
      crossed.back().insert(other.begin(), other.end());
    }
  all = std::move(crossed);
}

std::vector<Values> in_step(const std::vector<Choices>& group) {
  std::vector<Values> steps(group.front().values.size());
  for (const Choices& choices : group)
    for (std::size_t k = 0; k < steps.size(); ++k) steps[k][choices.path] = choices.values[k];
  return steps;
}

std::vector<Values> sampled(const VariantsFile& file) {
  const auto cube = latin_hypercube(file.hypercube_points, file.hypercube.size(), file.hypercube_seed);
  std::vector<Values> points(cube.size());
  for (std::size_t k = 0; k < cube.size(); ++k)
    for (std::size_t d = 0; d < file.hypercube.size(); ++d) {
      const Choices& choices = file.hypercube[d];
      const double part = cube[k][d];
      points[k][choices.path] =
          choices.values.empty()
              ? drawn(choices.from + part * (choices.to - choices.from))
              : choices.values[static_cast<std::size_t>(part * static_cast<double>(choices.values.size()))];
    }
  return points;
}

void follow(const VariantsFile& file, Values& values) {
  for (const Follower& follower : file.follow) {
    const auto leader = file.device_text.number(follower.leader, values);
    if (!leader) refuse(follower.place, follower.leader + " is no number that could be followed.");
    values[follower.path] = drawn(follower.times * *leader + follower.plus);
  }
}

void stray(const VariantsFile& file, SeededDraws& draws, Values& values) {
  for (const Stray& each : file.tolerances) {
    const auto middle = file.device_text.number(each.path, values);
    if (!middle) refuse(each.place, each.path + " is no number that could stray.");
    const double unit = each.law == Stray::Law::uniform ? 2 * draws.uniform() - 1 : draws.normal();
    values[each.path] = drawn(*middle + each.reach * unit);
  }
}

/// Hashes of material files, each read once.
class MaterialHashes {
public:
  const std::string& of(const std::filesystem::path& file) {
    std::string& hash = known_[file.string()];
    if (hash.empty()) hash = sha256(text_of_file(file, "a material file"));
    return hash;
  }

  std::vector<InputFile> all() const {
    std::vector<InputFile> files;
    for (const auto& [path, hash] : known_) files.push_back(input_file(path, hash));
    return files;
  }

private:
  std::map<std::string, std::string> known_;
};

std::string key_of(DeviceFile device, MaterialHashes& hashes) {
  device.device.title.clear();
  device.states_spread = false;
  device.operation = {};
  std::string all = "coilpull " + program_version() + "\n" + canonical_text(device);
  for (const auto& [part, words] : device.words_of) {
    if (words.steel) all += part + " " + hashes.of(words.steel->file) + "\n";
    if (words.grade) all += part + " " + hashes.of(words.grade->file) + "\n";
  }
  return sha256(all);
}

/// Of a device that has a key.
std::string stroke_key_of(const std::string& key, DeviceFile device, const StrokeWish& wish) {
  device.device.title.clear();
  device.states_spread = false;
  return sha256("stroke of " + key + "\n" + canonical_text(device) + exact_text(wish));
}

void complete(Variant& variant, const VariantsFile& file, const Values& values, MaterialHashes& hashes) {
  const std::string text = file.device_text.with(values);
  try {
    const DeviceFile device =
        open_device_text(text, file.device_text.file_name(), file.device_path.parent_path());
    variant.canonical = canonical_text(device);
    variant.folder = file.device_path.parent_path();
    variant.key = key_of(device, hashes);
    variant.pulse = pulse_figures(device);
    if (file.stroke) variant.stroke_key = stroke_key_of(variant.key, device, *file.stroke);
  } catch (const BadDevice& bad) {
    variant.refusal = bad.what();
    variant.key = sha256("coilpull " + program_version() + "\n" + text);
  }
}

void add_path(VariantPlan& plan, const std::string& path, bool strays) {
  if (std::find(plan.paths.begin(), plan.paths.end(), path) != plan.paths.end()) return;
  plan.paths.push_back(path);
  plan.strays.push_back(strays);
}

void name_paths(const VariantsFile& file, VariantPlan& plan) {
  for (const Choices& choices : file.vary) add_path(plan, choices.path, false);
  for (const auto& group : file.together)
    for (const Choices& choices : group) add_path(plan, choices.path, false);
  for (const Choices& choices : file.hypercube) add_path(plan, choices.path, false);
  for (const Follower& follower : file.follow) add_path(plan, follower.path, false);
  for (const Stray& each : file.tolerances) add_path(plan, each.path, true);
}

/// One for each path of the plan.
std::vector<std::string> values_of(const VariantsFile& file, const VariantPlan& plan, const Values& values) {
  std::vector<std::string> all;
  for (const std::string& path : plan.paths) {
    const auto value = values.find(path);
    const auto number = file.device_text.number(path, values);
    all.push_back(value != values.end() ? value->second : number ? toml_number(*number) : "");
  }
  return all;
}

/// A goal or limit that the drawn device does not state what it takes for, told before anything is solved.
void refuse_untold(const VariantsFile& file, const DeviceFile& drawn) {
  Figures told = figures_of(drawn.device, {});
  const Figures pulse = pulse_figures(drawn);
  told.insert(pulse.begin(), pulse.end());
  const auto check = [&](const std::string& figure, const Place& place) {
    const auto needs_words = [&](const char* needs) {
      refuse(place, drawn.file_name + " does not tell it.", std::string("It needs ") + needs + ".");
    };
    if (told.count(figure) > 0) return;
    if (figure == "wire_g" || figure == "heat_W" || figure == "rise_K_per_s")
      needs_words("a coil, and wire = { diameter_mm = ... } in every [coil.<name>]");
    const auto& duty = drawn.operation.duty;
    if (figure == "pulse_rise_K" || (figure == "steady_degC" && !(duty && duty->strokes_per_s)))
      needs_words("[duty] pulse_ms, for steady_degC strokes_per_minute too, and the wire of every coil");
  };
  for (const Goal& goal : file.goals) check(goal.figure, goal.place);
  for (const Limit& limit : file.limits) check(limit.figure, limit.place);
}

}  // namespace

VariantPlan plan_variants(const VariantsFile& file) {
  // the device as it is in the file has to be one: what is wrong with it is wrong with all
  const DeviceFile drawn = open_device_text(file.device_text.with(file.set), file.device_text.file_name(),
                                            file.device_path.parent_path());
  if (file.stroke) refuse_without_stroke(drawn, *file.stroke);
  refuse_untold(file, drawn);
  std::vector<Values> designs = {file.set};
  for (const Choices& choices : file.vary) cross(designs, in_step({choices}), choices.place);
  for (const auto& group : file.together) cross(designs, in_step(group), group.front().place);
  if (!file.hypercube.empty()) cross(designs, sampled(file), file.hypercube.front().place);

  VariantPlan plan;
  name_paths(file, plan);
  MaterialHashes hashes;
  const std::size_t draws = std::max<std::size_t>(file.draws, 1);
  if (draws > most_variants / designs.size())
    refuse(file.tolerances.front().place, "brings the number of variants above a million.", "Fewer draws.");
  for (std::size_t design = 0; design < designs.size(); ++design) {
    SeededDraws random(file.draws_seed);  // the same strays for every design: what differs is the design
    for (std::size_t draw = 0; draw < draws; ++draw) {
      Values values = designs[design];
      follow(file, values);
      if (draw > 0) stray(file, random, values);
      Variant variant{plan.variants.size() + 1, design + 1, values_of(file, plan, values)};
      complete(variant, file, values, hashes);
      plan.variants.push_back(std::move(variant));
    }
  }
  plan.drawn = origin_of(drawn);
  plan.drawn.file_content = file.device_text.with({});
  plan.materials = hashes.all();
  return plan;
}

DeviceFile device_of(const Variant& variant) {
  DeviceFile file = open_device_text(variant.canonical, "", variant.folder);
  for (auto& place : file.place_of) place.second.line = 0;
  return file;
}

Variant changed_design(const VariantsFile& file, const VariantPlan& plan, const Variant& design,
                       const std::map<std::string, double>& numbers) {
  Values values = file.set;
  for (std::size_t p = 0; p < plan.paths.size(); ++p)
    if (!plan.strays[p] && !design.values[p].empty()) values[plan.paths[p]] = design.values[p];
  for (const auto& [path, number] : numbers) values[path] = drawn(number);
  follow(file, values);
  Variant changed{design.number, design.design, values_of(file, plan, values)};
  MaterialHashes hashes;
  complete(changed, file, values, hashes);
  return changed;
}

}  // namespace coilpull
