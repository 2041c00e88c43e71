// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/approximations.hpp"

#include <algorithm>

#include "apps/device_file/bad_device.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {

std::vector<std::string> names_of_approximations() {
  std::vector<std::string> names;
  for (const Approximation approximation : all_approximations()) names.push_back(word_for(approximation));
  return names;
}

Approximations::Approximations(const Device& device, const std::vector<std::string>& names,
                               const std::string& device_file) {
  for (const Approximation approximation : all_approximations()) {
    const std::string name = word_for(approximation);
    if (std::find(names.begin(), names.end(), name) == names.end()) continue;
    names_.push_back(name);
    formulas_.emplace_back();
    for (const double displacement : device.displacements) try {
        formulas_.back().push_back(approximate_force(device, approximation, displacement));
      } catch (const NotDescribed& trouble) {
        throw BadDevice(device_file + ": --approximation " + name + " cannot describe this device at " +
                        shortest(in_mm(displacement)) + " mm: " + trouble.what() +
                        ".\n  Leave the option away: the finite elements describe it.");
      }
  }
}

void Approximations::add_to(ForceTable& table) const {
  if (names_.empty()) return;
  table.approximations = names_;
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    for (const std::vector<ForceFormula>& formulas : formulas_)
      table.rows[i].approximate_force_N.push_back(
          formulas[i / table.currents_per_displacement].at(table.rows[i].currents_A));
}

}  // namespace coilpull
