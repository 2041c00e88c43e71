// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/answers.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <set>

#include "apps/input/force_table_file.hpp"

namespace coilpull {
namespace {

constexpr std::size_t fewest_draws = 5;

/// Draws of a design follow the design itself.
std::vector<std::size_t> designs_of(const VariantPlan& plan) {
  std::vector<std::size_t> firsts;
  for (std::size_t k = 0; k < plan.variants.size(); ++k)
    if (k == 0 || plan.variants[k].design != plan.variants[k - 1].design) firsts.push_back(k);
  return firsts;
}

const Measured* figure_of(const std::optional<VariantResult>& result, const std::string& name) {
  if (!result) return nullptr;
  const auto found = result->figures.find(name);
  return found == result->figures.end() ? nullptr : &found->second;
}

bool inside(const Limit& limit, const std::optional<VariantResult>& result) {
  const Measured* figure = figure_of(result, limit.figure);
  return figure != nullptr && figure->value > limit.above && figure->value < limit.below;
}

bool knows_goals(const VariantsFile& file, const std::optional<VariantResult>& result) {
  return result && std::all_of(file.goals.begin(), file.goals.end(),
                               [&](const Goal& goal) { return figure_of(result, goal.figure) != nullptr; });
}

/// Higher is better.
double merit(const Goal& goal, const std::optional<VariantResult>& result) {
  const double value = figure_of(result, goal.figure)->value;
  return goal.most ? value : -value;
}

/// a is nowhere worse than b and somewhere better.
bool dominates(const VariantsFile& file, const std::optional<VariantResult>& a,
               const std::optional<VariantResult>& b) {
  bool better = false;
  for (const Goal& goal : file.goals) {
    if (merit(goal, a) < merit(goal, b)) return false;
    better |= merit(goal, a) > merit(goal, b);
  }
  return better;
}

std::optional<double> number_in(const std::string& toml) {
  char* end = nullptr;
  const double value = std::strtod(toml.c_str(), &end);
  if (toml.empty() || *end != '\0') return std::nullopt;
  return value;
}

/// A column of the straight-line model, scaled to its range.
struct Column {
  std::string path, level;
  double least, range;
  std::vector<double> entries;  ///< one per design
};

/// A number is one column from 0 to 1; of anything else, each value but the last has one.
void add_columns(const VariantPlan& plan, const std::vector<std::size_t>& designs, std::size_t path,
                 std::vector<Column>& columns) {
  std::vector<std::string> values;
  values.reserve(designs.size());
  for (const std::size_t k : designs) values.push_back(plan.variants[k].values[path]);
  const std::set<std::string> levels(values.begin(), values.end());
  if (levels.size() < 2) return;
  if (std::all_of(levels.begin(), levels.end(),
                  [](const std::string& v) { return number_in(v).has_value(); })) {
    std::vector<double> numbers;
    numbers.reserve(values.size());
    for (const std::string& value : values) numbers.push_back(*number_in(value));
    const auto [least, most] = std::minmax_element(numbers.begin(), numbers.end());
    Column column{plan.paths[path], "", *least, *most - *least, {}};
    for (const double number : numbers) column.entries.push_back((number - column.least) / column.range);
    columns.push_back(std::move(column));
    return;
  }
  for (const std::string& level : levels) {
    Column column{plan.paths[path], level, 0, 1, {}};
    for (const std::string& value : values) column.entries.push_back(value == level ? 1 : 0);
    columns.push_back(std::move(column));
  }
}

/// What is chosen for itself: no follower, no stray, and of a group in step only its first.
std::vector<std::string> free_paths(const VariantsFile& file) {
  std::vector<std::string> paths;
  for (const Choices& choices : file.vary) paths.push_back(choices.path);
  for (const auto& group : file.together) paths.push_back(group.front().path);
  for (const Choices& choices : file.hypercube) paths.push_back(choices.path);
  return paths;
}

/// Levels against their mean: the least-squares solution of least norm leaves their constant open.
void centre_levels(const std::vector<Column>& columns, Eigen::VectorXd& solution) {
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (columns[c].level.empty() || (c > 0 && columns[c - 1].path == columns[c].path)) continue;
    std::size_t end = c;
    double sum = 0;
    for (; end < columns.size() && columns[end].path == columns[c].path; ++end)
      sum += solution(static_cast<Eigen::Index>(end));
    for (std::size_t k = c; k < end; ++k)
      solution(static_cast<Eigen::Index>(k)) -= sum / static_cast<double>(end - c);
  }
}

/// Paths with levels: the columns of each add up to the constant, and so take one from the rank.
Eigen::Index levelled_paths(const std::vector<Column>& columns) {
  std::set<std::string> paths;
  for (const Column& column : columns)
    if (!column.level.empty()) paths.insert(column.path);
  return static_cast<Eigen::Index>(paths.size());
}

MainEffects effects_on(const Goal& goal, const VariantsFile& file, const VariantPlan& plan,
                       const std::vector<std::size_t>& designs, const VariantResults& results) {
  MainEffects found{{}, std::numeric_limits<double>::quiet_NaN()};
  std::vector<Column> columns;
  const std::vector<std::string> free = free_paths(file);
  for (std::size_t p = 0; p < plan.paths.size(); ++p)
    if (std::find(free.begin(), free.end(), plan.paths[p]) != free.end())
      add_columns(plan, designs, p, columns);
  const auto rows = static_cast<Eigen::Index>(designs.size()),
             cols = static_cast<Eigen::Index>(columns.size());
  if (cols == 0 || rows < cols + 1) return found;
  Eigen::MatrixXd model(rows, cols + 1);  // the last column: a constant
  Eigen::VectorXd goals(rows);
  for (Eigen::Index i = 0; i < rows; ++i) {
    for (Eigen::Index c = 0; c < cols; ++c)
      model(i, c) = columns[static_cast<std::size_t>(c)].entries[static_cast<std::size_t>(i)];
    model(i, cols) = 1;
    goals(i) = figure_of(results[designs[static_cast<std::size_t>(i)]], goal.figure)->value;
  }
  const Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> lines(model);
  if (lines.rank() + levelled_paths(columns) < cols + 1)
    return found;  // directions that cannot be told apart
  Eigen::VectorXd solution = lines.solve(goals);
  const double left = (goals - model * solution).squaredNorm();
  const double all = (goals.array() - goals.mean()).matrix().squaredNorm();
  found.explained = all > 0 ? 1 - left / all : 1;
  centre_levels(columns, solution);
  const double rounding = 1e-12 * goals.cwiseAbs().maxCoeff();
  for (std::size_t c = 0; c < columns.size(); ++c) {
    const double raw = solution(static_cast<Eigen::Index>(c)), change = std::abs(raw) > rounding ? raw : 0;
    found.effects.push_back(
        {columns[c].path, columns[c].level, change,
         columns[c].level.empty() ? change / columns[c].range : std::numeric_limits<double>::quiet_NaN()});
  }
  std::stable_sort(found.effects.begin(), found.effects.end(), [](const MainEffect& a, const MainEffect& b) {
    return std::abs(a.over_range) > std::abs(b.over_range);
  });
  return found;
}

Quantiles quantiles(const std::vector<double>& values) {
  return {quantile(values, 0.05), quantile(values, 0.5), quantile(values, 0.95)};
}

}  // namespace

bool differ(const Measured& a, const Measured& b) { return std::abs(a.value - b.value) > a.error + b.error; }

double quantile(std::vector<double> values, double part) {
  std::sort(values.begin(), values.end());
  const double place = part * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, values.size() - 1);
  return values[below] + (place - static_cast<double>(below)) * (values[above] - values[below]);
}

Answers answers_of(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results) {
  Answers answers;
  std::vector<std::size_t> solved;
  for (const std::size_t k : designs_of(plan)) {
    if (!knows_goals(file, results[k])) continue;
    solved.push_back(k);
    if (std::all_of(file.limits.begin(), file.limits.end(),
                    [&](const Limit& limit) { return inside(limit, results[k]); }))
      answers.within.push_back(k);
  }
  for (const Goal& goal : file.goals) {
    answers.ranked.push_back(answers.within);
    std::stable_sort(
        answers.ranked.back().begin(), answers.ranked.back().end(),
        [&](std::size_t a, std::size_t b) { return merit(goal, results[a]) > merit(goal, results[b]); });
    answers.effects.push_back(effects_on(goal, file, plan, solved, results));
  }
  for (const std::size_t k : answers.within)
    if (!file.goals.empty() &&
        std::none_of(answers.within.begin(), answers.within.end(),
                     [&](std::size_t other) { return dominates(file, results[other], results[k]); }))
      answers.pareto.push_back(k);
  return answers;
}

std::optional<Quantiles> quantiles_of(const std::string& figure, const Variant& design,
                                      const VariantPlan& plan, const VariantResults& results) {
  std::vector<double> values;
  for (std::size_t k = design.number - 1;
       k < plan.variants.size() && plan.variants[k].design == design.design; ++k)
    if (const Measured* found = figure_of(results[k], figure)) values.push_back(found->value);
  if (values.size() < fewest_draws) return std::nullopt;
  return quantiles(values);
}

std::vector<ForceBandRow> force_band(const Variant& design, std::size_t set, const VariantPlan& plan,
                                     const VariantResults& results) {
  std::vector<ForceBandRow> band;
  std::vector<std::vector<double>> forces;
  for (std::size_t k = design.number - 1;
       k < plan.variants.size() && plan.variants[k].design == design.design; ++k) {
    if (figure_of(results[k], "force_N") == nullptr) continue;  // no usable row
    const ForceTableFile table = read_force_table(read_csv_text(results[k]->table_csv, "stored table"));
    if (band.empty()) {
      for (std::size_t i = 0; i < table.displacements.size(); ++i)
        band.push_back({table.displacements[i], table.at(i, set).force_N, {}});
      forces.resize(band.size());
    }
    for (std::size_t i = 0; i < band.size() && i < table.displacements.size(); ++i)
      if (const double force = table.at(i, set).force_N; std::isfinite(force)) forces[i].push_back(force);
  }
  for (std::size_t i = 0; i < band.size(); ++i) {
    if (forces[i].size() < fewest_draws) return {};
    band[i].force_N = quantiles(forces[i]);
  }
  return band;
}

}  // namespace coilpull
