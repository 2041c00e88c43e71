// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "apps/comparison/row_weights.hpp"
#include "apps/variants/plan.hpp"
#include "apps/variants/ranges.hpp"
#include "apps/variants/variant_store.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/refine/sensitivity.hpp"

namespace coilpull {

/// How the figures of one design answer to the numbers with a range. Adjoints are solved
/// once a row, changed devices read once a range, and kept.
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
  /// A little beside in one range, and what it comes to without its table.
  struct Near {
    Device device;
    double step;
    Figures drawn;
  };
  std::optional<Beside> beside(std::size_t range, double share) const;
  std::vector<std::optional<Near>> all_near() const;
  std::optional<double> by_adjoint(const std::vector<RowWeight>& weights, const Device& to);
  const std::optional<SensitivityList>& list_at(std::size_t row);
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
  Figures drawn_;  ///< without the table
  ForceTable table_;
  std::vector<std::optional<Near>> near_;  ///< one per range; nothing: no device on either side
  std::map<std::size_t, std::optional<SensitivityList>> lists_;  ///< by row of the table
};

/// What a design has now of each range, by path.
std::map<std::string, double> numbers_of(const VariantPlan& plan, const std::vector<NumberRange>& ranges,
                                         const Variant& design);

}  // namespace coilpull
