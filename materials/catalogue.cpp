// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/catalogue.hpp"

#include <toml++/toml.h>
#include <algorithm>

#include "materials/bad_material.hpp"
#include "materials/data_directory.hpp"
#include "materials/detail/nearest_name.hpp"
#include "materials/detail/require_number.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {

namespace fs = std::filesystem;

namespace {

/// One TOML file; every refusal leaves with its place.
class MaterialFile {
public:
  explicit MaterialFile(const fs::path& path) : path_(path) {
    if (!fs::is_regular_file(path)) throw BadMaterial("", path.string() + ": no such file");
    try {
      table_ = toml::parse_file(path.string());
    } catch (const toml::parse_error& error) {
      throw BadMaterial("", place(error.source()) + "not valid TOML: " + std::string(error.description()));
    }
  }

  std::string stem() const { return path_.stem().string(); }

  /// key: fact, at the line of the key's value.
  [[noreturn]] void refuse(const std::string& key, const std::string& fact) const {
    throw BadMaterial(key, place_of(key, {}) + fact);
  }

  /// The same words with file and line in front.
  BadMaterial placed(const BadMaterial& bad) const {
    return {bad.key, place_of(bad.key, bad.element) + bad.what(), bad.element};
  }

  /// work(), whose refusals leave with their place.
  template <class Work>
  auto with_place(const Work& work) const {
    try {
      return work();
    } catch (const BadMaterial& bad) {
      throw placed(bad);
    }
  }

  void refuse_other_keys(const std::vector<std::string>& allowed) const {
    for (const auto& [key, value] : table_) {
      const std::string word(key.str());
      if (std::find(allowed.begin(), allowed.end(), word) != allowed.end()) continue;
      const std::optional<std::string> meant = detail::nearest_name(word, allowed);
      refuse(word, word + ": unknown key" + (meant ? "; did you mean " + *meant + "?" : ""));
    }
  }

  std::string text(const std::string& key, const std::string& otherwise) const {
    const toml::node* node = table_.get(key);
    if (node == nullptr) return otherwise;
    const std::optional<std::string> value = node->value_exact<std::string>();
    if (!value || value->empty()) refuse(key, key + ": must be a text in quotes, not empty");
    return *value;
  }

  std::vector<std::string> texts(const std::string& key) const {
    std::vector<std::string> values;
    for_each_element(key, "a list of texts", [&](const toml::node& node) {
      const std::optional<std::string> value = node.value_exact<std::string>();
      if (value) values.push_back(*value);
      return value.has_value();
    });
    return values;
  }

  std::optional<double> number(const std::string& key) const {
    const toml::node* node = table_.get(key);
    if (node == nullptr) return {};
    if (!node->is_number()) refuse(key, key + ": must be a number");
    return node->value<double>();
  }

  std::optional<double> number_above_0(const std::string& key) const {
    std::optional<double> value = number(key);
    if (value) with_place([&] { detail::require_above(0, key, *value); });
    return value;
  }

  std::vector<double> numbers(const std::string& key) const {
    std::vector<double> values;
    for_each_element(key, "a list of numbers", [&](const toml::node& node) {
      if (!node.is_number()) return false;
      values.push_back(*node.value<double>());
      return true;
    });
    return values;
  }

private:
  std::string place(const toml::source_region& region) const {
    const auto line = region.begin.line;
    return path_.string() + (line > 0 ? ":" + std::to_string(line) : "") + ": ";
  }

  std::string place_of(const std::string& key, std::optional<std::size_t> element) const {
    const toml::node* node = table_.get(key);
    if (node == nullptr) return path_.string() + ": ";
    if (element && node->is_array() && *element < node->as_array()->size())
      return place(node->as_array()->get(*element)->source());
    return place(node->source());
  }

  /// take(node) returns whether it could use the element.
  template <class Take>
  void for_each_element(const std::string& key, const std::string& what, const Take& take) const {
    const toml::node* node = table_.get(key);
    if (node == nullptr) return;
    if (!node->is_array()) refuse(key, key + ": must be " + what);
    std::size_t i = 0;
    for (const toml::node& element : *node->as_array()) {
      if (!take(element)) throw placed({key, key + ": must be " + what, i});
      ++i;
    }
  }

  fs::path path_;
  toml::table table_;
};

template <class Material>
void read_words(const MaterialFile& file, Material& material) {
  const std::string unknown = "not stated";
  material.name = file.text("name", file.stem());
  material.also_called = file.texts("also_called");
  material.source = file.text("source", "");
  if (material.source.empty())
    file.refuse("source", "source is missing: say in one line who measured or published the numbers");
  material.certainty = file.text("certainty", unknown);
  material.condition = file.text("condition", unknown);
  material.beyond = file.text("beyond", unknown);
}

std::vector<std::string> allowed_keys(std::vector<std::string> more) {
  more.insert(more.end(), {"name", "also_called", "source", "certainty", "condition", "beyond"});
  return more;
}

LawNumbers law_numbers(const MaterialFile& file) {
  LawNumbers law{file.text("law", ""), {}, file.numbers("h_A_per_m"), file.numbers("b_T")};
  for (const std::string& key : law_keys())
    if (key != "law" && key != "h_A_per_m" && key != "b_T")
      if (const std::optional<double> number = file.number(key)) law.numbers[key] = *number;
  return law;
}

template <class Material>
void index(const std::vector<Material>& materials, const fs::path& file,
           std::map<std::string, std::size_t>& of) {
  std::vector<std::string> names = materials.back().also_called;
  names.insert(names.begin(), materials.back().name);
  for (const std::string& name : names)
    if (!of.emplace(detail::lower_case(name), materials.size() - 1).second)
      throw BadMaterial(
          "name", file.string() + ": the name \"" + name + "\" is taken by another file of the catalogue");
}

std::vector<fs::path> toml_files(const fs::path& folder) {
  std::vector<fs::path> files;
  if (!fs::is_directory(folder)) return files;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

template <class Material>
const Material& find(const std::vector<Material>& materials, const std::map<std::string, std::size_t>& of,
                     const std::string& name, const std::string& kind) {
  const auto found = of.find(detail::lower_case(name));
  if (found != of.end()) return materials[found->second];
  std::vector<std::string> names;
  for (const auto& [known, at] : of) names.push_back(known);
  const std::optional<std::string> meant = detail::nearest_name(name, names);
  std::string fact = "no " + kind + " called \"" + name + "\"";
  if (meant) throw BadMaterial("material", fact + "; did you mean \"" + *meant + "\"?");
  fact += ". Known:";
  for (const std::string& known : names) fact += " \"" + known + "\"";
  throw BadMaterial("material", fact);
}

template <class Material>
std::vector<std::string> sorted_names(const std::vector<Material>& materials) {
  std::vector<std::string> names;
  for (const Material& material : materials) names.push_back(material.name);
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

SoftMaterial read_steel(const fs::path& path) {
  const MaterialFile file(path);
  std::vector<std::string> allowed = allowed_keys(law_keys());
  allowed.insert(allowed.end(), {"density_kg_per_m3", "resistivity_ohm_m"});
  file.refuse_other_keys(allowed);
  const LawNumbers numbers = law_numbers(file);
  SoftMaterial steel{"", {}, "", "", "", "", file.with_place([&] { return make_law(numbers); }), {}, {}, {}};
  read_words(file, steel);
  steel.saturation_polarization_T = file.number("saturation_polarization_T");
  if (!std::holds_alternative<BhCurve>(steel.law))
    steel.saturation_polarization_T = saturation_polarization(steel.law);
  steel.density_kg_per_m3 = file.number_above_0("density_kg_per_m3");
  steel.resistivity_ohm_m = file.number_above_0("resistivity_ohm_m");
  return steel;
}

MagnetMaterial read_magnet(const fs::path& path) {
  const MaterialFile file(path);
  file.refuse_other_keys(
      allowed_keys({"remanence_T", "recoil_permeability", "remanence_low_T", "remanence_high_T",
                    "coercivity_A_per_m", "intrinsic_coercivity_A_per_m", "remanence_coefficient_per_K",
                    "max_temperature_degC", "density_kg_per_m3"}));
  MagnetMaterial magnet{};
  read_words(file, magnet);
  for (const char* key : {"remanence_T", "recoil_permeability"})
    if (!file.number(key)) file.refuse(key, std::string(key) + " is missing: a magnet needs it");
  magnet.remanence_T = *file.number("remanence_T");
  magnet.recoil_permeability = *file.number("recoil_permeability");
  file.with_place([&] { check_magnet(magnet.remanence_T, magnet.recoil_permeability); });
  magnet.remanence_low_T = file.number_above_0("remanence_low_T");
  magnet.remanence_high_T = file.number_above_0("remanence_high_T");
  if (magnet.remanence_low_T && *magnet.remanence_low_T > magnet.remanence_T)
    file.refuse("remanence_low_T", "remanence_low_T: must not be above remanence_T");
  if (magnet.remanence_high_T && *magnet.remanence_high_T < magnet.remanence_T)
    file.refuse("remanence_high_T", "remanence_high_T: must not be below remanence_T");
  magnet.coercivity_A_per_m = file.number_above_0("coercivity_A_per_m");
  magnet.intrinsic_coercivity_A_per_m = file.number_above_0("intrinsic_coercivity_A_per_m");
  magnet.remanence_coefficient_per_K = file.number("remanence_coefficient_per_K");
  magnet.max_temperature_degC = file.number("max_temperature_degC");
  magnet.density_kg_per_m3 = file.number_above_0("density_kg_per_m3");
  return magnet;
}

Catalogue::Catalogue(const std::vector<fs::path>& data_folders) {
  for (const fs::path& folder : data_folders) {
    if (!fs::is_directory(folder))
      throw BadMaterial("", folder.string() + ": no such folder of material data");
    for (const fs::path& file : toml_files(folder / "steels")) {
      steels_.push_back(read_steel(file));
      index(steels_, file, steel_of_);
    }
    for (const fs::path& file : toml_files(folder / "magnets")) {
      magnets_.push_back(read_magnet(file));
      index(magnets_, file, magnet_of_);
    }
  }
}

const SoftMaterial& Catalogue::steel(const std::string& name) const {
  return find(steels_, steel_of_, name, "steel");
}

const MagnetMaterial& Catalogue::magnet(const std::string& name) const {
  return find(magnets_, magnet_of_, name, "magnet");
}

std::vector<std::string> Catalogue::steel_names() const { return sorted_names(steels_); }
std::vector<std::string> Catalogue::magnet_names() const { return sorted_names(magnets_); }

Catalogue standard_catalogue() { return Catalogue({data_directory()}); }

}  // namespace coilpull
