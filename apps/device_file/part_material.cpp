// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/part_material.hpp"

#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/file_beside.hpp"
#include "apps/device_file/keys.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {

namespace {

const char* const law_example =
    "{ law = \"froehlich\", saturation_polarization_T = 2.1, half_field_A_per_m = 500 }";
const char* const magnet_example = "{ remanence_T = 1.2, recoil_permeability = 1.05 }";

bool is_path(const std::string& words) {
  const std::string ending = ".toml";
  return words.find('/') != std::string::npos ||
         (words.size() > ending.size() &&
          words.compare(words.size() - ending.size(), ending.size(), ending) == 0);
}

std::filesystem::path path_of(const Value& material, const MaterialSources& sources) {
  return file_beside(material, sources.folder, "material file", "device file");
}

const Catalogue& catalogue_of(MaterialSources& sources) {
  if (!sources.catalogue) sources.catalogue = standard_catalogue();
  return *sources.catalogue;
}

std::vector<double> number_list(const Value& value) {
  const toml::array* list = value.node->as_array();
  if (list == nullptr) refuse(value.place, "needs a list of numbers.", "For example [0, 100, 1000]");
  std::vector<double> numbers;
  for (const toml::node& element : *list) {
    Place place = value.place;
    place.line = static_cast<int>(element.source().begin.line);
    numbers.push_back(number({place, &element}));
  }
  return numbers;
}

LawNumbers read_law_numbers(const Table& table) {
  LawNumbers law;
  for (const auto& [key, value] : table.in_file_order()) {
    if (key == "law")
      law.law = text(value);
    else if (key == "h_A_per_m")
      law.h_A_per_m = number_list(value);
    else if (key == "b_T")
      law.b_T = number_list(value);
    else
      law.numbers[key] = number(value);
  }
  return law;
}

std::string as_toml(const LawNumbers& law) {
  std::string words;
  const auto add = [&](const std::string& key, const std::string& value) {
    words += (words.empty() ? "" : ", ") + key + " = " + value;
  };
  if (!law.law.empty()) add("law", toml_text(law.law));
  if (!law.h_A_per_m.empty()) add("h_A_per_m", toml_numbers(law.h_A_per_m));
  if (!law.b_T.empty()) add("b_T", toml_numbers(law.b_T));
  for (const auto& [key, number] : law.numbers) add(key, toml_number(number));
  return "{ " + words + " }";
}

NamedLaw read_given_law(const Value& material, const SourceText& source) {
  const Table table = inline_table(material, source, law_example);
  const LawNumbers numbers = read_law_numbers(table);
  const std::string name = numbers.law.empty() ? "given B-H table" : "given " + numbers.law + " law";
  try {
    return {make_law(numbers), name, as_toml(numbers)};
  } catch (const BadMaterial& trouble) {
    const auto key = table.find(trouble.key);
    refuse(key ? *key : material, trouble);
  }
}

NamedGrade read_given_magnet(const Value& material, const SourceText& source) {
  const Table table = inline_table(material, source, magnet_example);
  const std::string advice = "For example " + std::string(magnet_example);
  const Quantity remanence = flux_density_T(table, "remanence", advice);
  const Value recoil = table.need("recoil_permeability", advice);
  const std::optional<Quantity> knee = find_flux_density_T(table, "knee");
  table.refuse_unread_keys();
  std::string words = "{ remanence_T = " + toml_number(remanence.si) +
                      ", recoil_permeability = " + toml_number(number(recoil));
  if (knee) words += ", knee_T = " + toml_number(knee->si);
  NamedGrade magnet{{remanence.si, number(recoil), {}}, "given remanence", words + " }"};
  if (remanence.si < 0)
    refuse(remanence.value.place, "has to be greater than 0.",
           "A magnet the other way round is magnetised = \"-z\".");
  try {
    check_magnet(remanence.si, magnet.line.recoil_permeability);
  } catch (const BadMaterial& trouble) {
    refuse(trouble.key == "remanence_T" ? remanence.value : recoil, trouble);
  }
  if (knee && !(knee->si < remanence.si))
    refuse(knee->value.place, "has to be below the remanence.",
           "It is the flux density where the straight recoil line ends, often near or below 0.");
  if (knee) magnet.line.knee_T = knee->si;
  return magnet;
}

}  // namespace

NamedLaw read_soft_material(const Value& material, const SourceText& source, MaterialSources& sources) {
  if (!material.node->is_string()) return read_given_law(material, source);
  const std::string words = text(material);
  try {
    SoftMaterial steel =
        is_path(words) ? read_steel(path_of(material, sources)) : catalogue_of(sources).steel(words);
    const std::string as_toml = toml_text(is_path(words) ? words : steel.name);
    return {steel.law, steel.name, as_toml, std::move(steel)};
  } catch (const BadMaterial& trouble) {
    refuse(material, trouble);
  }
}

NamedGrade read_magnet_material(const Value& material, const SourceText& source, MaterialSources& sources,
                                const std::optional<Value>& temperature) {
  const double degC = temperature ? number(*temperature) : 20;
  if (!material.node->is_string()) {
    if (temperature && degC != 20)
      refuse(
          temperature->place, "the numbers given for this magnet hold at one temperature.",
          "Give those of the temperature you mean and leave this out, or name a material that knows how it "
          "changes.");
    return read_given_magnet(material, source);
  }
  const std::string words = text(material);
  try {
    MagnetMaterial grade =
        is_path(words) ? read_magnet(path_of(material, sources)) : catalogue_of(sources).magnet(words);
    const std::string as_toml = toml_text(is_path(words) ? words : grade.name);
    return {recoil_line_at(grade, degC), grade.name, as_toml, std::move(grade)};
  } catch (const BadMaterial& trouble) {
    refuse(trouble.key == "temperature_degC" && temperature ? *temperature : material, trouble);
  }
}

void refuse(const Value& value, const BadMaterial& trouble) {
  std::string fact = trouble.what();
  // "half_field_A_per_m = -5: must be ..." names key and value again, as the place does
  for (const char* after : {" = ", ": "})
    if (!trouble.key.empty() && fact.rfind(trouble.key + after, 0) == 0)
      fact = fact.substr(fact.find(": ") + 2);
  if (!fact.empty() && fact.back() != '.' && fact.back() != '?') fact += '.';
  refuse(value.place, fact);
}

}  // namespace coilpull
