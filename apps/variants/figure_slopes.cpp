// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/figure_slopes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <utility>

#include "apps/commands/solve.hpp"
#include "apps/input/solved_rows.hpp"
#include "solver/refine/first_order_change.hpp"

namespace coilpull {
namespace {

constexpr double small_share = 1e-2;  // of a range: a first-order change is in proportion to it
constexpr double table_share = 5e-2;  // far more than the bars of two tables
constexpr int published_order = 4;

std::optional<double> value_of(const Figures& figures, const std::string& name) {
  const auto found = figures.find(name);
  return found == figures.end() ? std::nullopt : std::optional<double>(found->second.value);
}

/// Strengths of magnets and dimensions are what the adjoint knows; a law, a wire or a current it does not.
bool changes_shape_or_magnet(const std::string& path) {
  for (const char* word : {".tube.", ".cylinder.", ".remanence_T", ".recoil_permeability"})
    if (path.find(word) != std::string::npos) return true;
  return false;
}

double value_at(const VariantPlan& plan, const Variant& design, const std::string& path) {
  const auto place = std::find(plan.paths.begin(), plan.paths.end(), path) - plan.paths.begin();
  return std::strtod(design.values[static_cast<std::size_t>(place)].c_str(), nullptr);
}

/// Those that need no table.
Figures drawn_figures(const Device& device, const Variant& design) {
  Figures figures = figures_of(device, {});
  figures.insert(design.pulse.begin(), design.pulse.end());
  return figures;
}

}  // namespace

std::map<std::string, double> numbers_of(const VariantPlan& plan, const std::vector<NumberRange>& ranges,
                                         const Variant& design) {
  std::map<std::string, double> numbers;
  for (const NumberRange& range : ranges) numbers[range.path] = value_at(plan, design, range.path);
  return numbers;
}

FigureSlopes::FigureSlopes(const VariantsFile& file, const VariantPlan& plan,
                           const std::vector<NumberRange>& ranges, const Variant& design,
                           const std::map<std::string, double>& numbers, const VariantResult& result,
                           Mesher& mesher, Ask ask)
    : file_(file),
      plan_(plan),
      ranges_(ranges),
      design_(design),
      numbers_(numbers),
      result_(result),
      mesher_(mesher),
      ask_(std::move(ask)),
      device_(device_of(design).device),
      drawn_(drawn_figures(device_, design)),
      table_(solved_rows(read_force_table(read_csv_text(result.table_csv, "stored table")))),
      near_(all_near()) {}

std::vector<double> FigureSlopes::of(const std::string& figure) {
  std::vector<double> slopes;
  const auto drawn = value_of(drawn_, figure);
  const auto weights = row_weights(figure, table_);
  bool shapes_only = true;  // followers too
  for (const Follower& follower : file_.follow) shapes_only &= changes_shape_or_magnet(follower.path);
  for (std::size_t r = 0; r < ranges_.size(); ++r) {
    const std::optional<Near>& near = near_[r];
    std::optional<double> change;
    if (near && drawn) {
      if (const auto other = value_of(near->drawn, figure)) change = *other - *drawn;
    } else if (near && weights && shapes_only && changes_shape_or_magnet(ranges_[r].path)) {
      change = by_adjoint(*weights, near->device);
    }
    slopes.push_back(change ? *change / near->step : by_tables(figure, r));
  }
  return slopes;
}

std::vector<std::optional<FigureSlopes::Near>> FigureSlopes::all_near() const {
  std::vector<std::optional<Near>> all;
  for (std::size_t r = 0; r < ranges_.size(); ++r) {
    all.emplace_back();
    const auto near = beside(r, small_share);
    if (!near) continue;
    Device device = device_of(near->design).device;
    Figures drawn = drawn_figures(device, near->design);
    all.back() = Near{std::move(device), near->step, std::move(drawn)};
  }
  return all;
}

/// A design with one number a share of its range larger or, where that is no device or leaves the range,
/// smaller.
std::optional<FigureSlopes::Beside> FigureSlopes::beside(std::size_t range, double share) const {
  const NumberRange& of = ranges_[range];
  const double now = numbers_.at(of.path);
  for (const double sign : {1.0, -1.0}) {
    const double there = now + sign * share * (of.to - of.from);
    if (there < of.from || there > of.to) continue;
    std::map<std::string, double> numbers = numbers_;
    numbers[of.path] = there;
    Variant design = changed_design(file_, plan_, design_, numbers);
    const double rounded = value_at(plan_, design, of.path);
    if (design.refusal.empty()) return Beside{std::move(design), rounded - now};
  }
  return std::nullopt;
}

std::optional<double> FigureSlopes::by_adjoint(const std::vector<RowWeight>& weights, const Device& to) {
  double sum = 0;
  for (const RowWeight& each : weights) {
    if (each.weight == 0) continue;
    const auto& list = list_at(each.row);
    if (!list) return std::nullopt;
    const auto change = first_order_change(*list, device_, to, table_.rows[each.row].displacement);
    if (!change) return std::nullopt;
    sum += each.weight * *change;
  }
  return sum;
}

const std::optional<SensitivityList>& FigureSlopes::list_at(std::size_t row) {
  const auto [place, is_new] = lists_.try_emplace(row);
  if (is_new)
    place->second = solve_sensitivities(device_, table_.rows[row].displacement, table_.rows[row].currents_A,
                                        published_order, mesher_);
  return place->second;
}

double FigureSlopes::by_tables(const std::string& figure, std::size_t range) {
  if (!ask_) return std::numeric_limits<double>::quiet_NaN();
  const auto far = beside(range, table_share);
  const auto here = value_of(result_.figures, figure);
  if (!far || !here) return 0;
  const std::optional<VariantResult> there = ask_(far->design);
  const auto value = there ? value_of(there->figures, figure) : std::nullopt;
  return value ? (*value - *here) / far->step : 0;
}

}  // namespace coilpull
