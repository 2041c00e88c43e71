// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "apps/input/force_table_file.hpp"
#include "apps/variants/plan.hpp"
#include "apps/variants/ranges.hpp"
#include "apps/variants/variant_store.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/refine/sensitivity.hpp"

namespace coilpull {

/// How the figures of one design answer to the numbers with a range. Adjoints are solved once a row and kept.
class FigureSlopes {
public:
  /// Solves the table of another design; nothing: stopped. Empty: no table is solved.
  using Ask = std::function<std::optional<VariantResult>(const Variant&)>;

  /// All outlive it. @param numbers  what the design has now, by path
  FigureSlopes(const VariantsFile& file, const VariantPlan& plan, const std::vector<NumberRange>& ranges,
               const Variant& design, const std::map<std::string, double>& numbers,
               const VariantResult& result, Mesher& mesher, Ask ask);

  /// Per unit of each range's key. Of forces and works by the adjoint, of sizes from the drawing, else by the
  /// difference of two tables, NaN without them. 0 where neither side of the number is a device.
  std::vector<double> of(const std::string& figure);

private:
  struct Beside {
    Variant design;
    double step;  ///< in the unit of the key
  };
  std::optional<Beside> beside(std::size_t range, double share) const;
  std::optional<double> by_adjoint(const std::string& figure, const Device& to);
  const std::optional<SensitivityList>& list_at(std::size_t displacement, std::size_t set);
  double by_tables(const std::string& figure, std::size_t range);

  const VariantsFile& file_;
  const VariantPlan& plan_;
  const std::vector<NumberRange>& ranges_;
  const Variant& design_;
  const std::map<std::string, double>& numbers_;
  const VariantResult& result_;
  Mesher& mesher_;
  Ask ask_;
  Device device_;
  ForceTableFile table_;
  std::map<std::pair<std::size_t, std::size_t>, std::optional<SensitivityList>> lists_;
};

/// What a design has now of each range, by path.
std::map<std::string, double> numbers_of(const VariantPlan& plan, const std::vector<NumberRange>& ranges,
                                         const Variant& design);

}  // namespace coilpull
