// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/catalogue.hpp"

#include <algorithm>

#include "materials/bad_material.hpp"
#include "materials/data_directory.hpp"
#include "materials/detail/nearest_name.hpp"

namespace coilpull {

namespace fs = std::filesystem;

namespace {

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
  names.reserve(of.size());
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
  names.reserve(materials.size());
  for (const Material& material : materials) names.push_back(material.name);
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

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
  for (const SoftMaterial& steel : steels_)
    if (steel.member) bracket(steel.member->pair);  // both are there
}

const SoftMaterial& Catalogue::steel(const std::string& name) const {
  for (const SoftMaterial& steel : steels_)
    if (steel.member && detail::lower_case(steel.member->pair) == detail::lower_case(name))
      throw BadMaterial("material", "\"" + name + "\" is known as a pair of bounds only: use \"" +
                                        bracket(name).weak->name + "\" and \"" + bracket(name).strong->name +
                                        "\" in turn; the truth lies between them");
  return find(steels_, steel_of_, name, "steel");
}

Bracket Catalogue::bracket(const std::string& pair) const {
  Bracket found{};
  for (const SoftMaterial& steel : steels_)
    if (steel.member && detail::lower_case(steel.member->pair) == detail::lower_case(pair))
      (steel.member->bound == Bound::weak ? found.weak : found.strong) = &steel;
  if (!found.weak || !found.strong)
    throw BadMaterial("material", "no pair of bounds called \"" + pair + "\"");
  return found;
}

std::vector<std::string> Catalogue::pair_names() const {
  std::vector<std::string> names;
  for (const SoftMaterial& steel : steels_)
    if (steel.member && steel.member->bound == Bound::weak) names.push_back(steel.member->pair);
  std::sort(names.begin(), names.end());
  return names;
}

const MagnetMaterial& Catalogue::magnet(const std::string& name) const {
  return find(magnets_, magnet_of_, name, "magnet");
}

std::vector<std::string> Catalogue::steel_names() const { return sorted_names(steels_); }
std::vector<std::string> Catalogue::magnet_names() const { return sorted_names(magnets_); }

Catalogue standard_catalogue() { return Catalogue({data_directory()}); }

}  // namespace coilpull
