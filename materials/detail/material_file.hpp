// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "materials/bad_material.hpp"
#include "materials/material_words.hpp"

namespace coilpull::detail {

/// One material file (TOML); every refusal leaves with file and line. Texts come as one line. The TOML
/// reader's headers appear in material_file.cpp and nowhere else in materials/.
class MaterialFile {
public:
  /// @throws BadMaterial  when there is no such file, or it is not valid TOML
  explicit MaterialFile(const std::filesystem::path& path);
  ~MaterialFile();

  std::string stem() const { return path_.stem().string(); }

  /// key: fact, at the line of the key's value.
  [[noreturn]] void refuse(const std::string& key, const std::string& fact) const;

  /// work(), whose refusals leave with their place.
  template <class Work>
  auto with_place(const Work& work) const {
    try {
      return work();
    } catch (const BadMaterial& bad) {
      throw placed(bad);
    }
  }

  void refuse_other_keys(const std::vector<std::string>& allowed) const;

  std::string text(const std::string& key, const std::string& otherwise) const;
  std::vector<std::string> texts(const std::string& key) const;
  std::optional<double> number(const std::string& key) const;
  std::optional<double> number_above_0(const std::string& key) const;
  std::vector<double> numbers(const std::string& key) const;

  /// name, also_called, family, source, certainty, condition, beyond.
  MaterialWords words() const;
  static std::vector<std::string> word_keys();

private:
  struct Content;
  std::string place_of(const std::string& key, std::optional<std::size_t> element) const;
  std::string shown(const std::string& key, std::string words) const;  ///< brought to one line, or refused
  BadMaterial placed(const BadMaterial& bad) const;  ///< the same words with file and line in front

  std::filesystem::path path_;
  std::unique_ptr<const Content> content_;
};

}  // namespace coilpull::detail
