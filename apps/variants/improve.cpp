// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/improve.hpp"

#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <memory>

#include "apps/variants/figure_slopes.hpp"
#include "apps/variants/solve_variants.hpp"
#include "apps/variants/stroke_use.hpp"
#include "solver/sweep/crew.hpp"

namespace coilpull {
namespace {

constexpr double inside_margin = 1e-5;   // of a limit: six digits of a number may not carry it across
constexpr double refused_penalty = 1e3;  // objective of what is no result

double size_of(double value) { return value == 0 ? 1 : std::abs(value); }

const Measured* figure_of(const VariantResult& result, const std::string& name) {
  const auto found = result.figures.find(name);
  return found == result.figures.end() ? nullptr : &found->second;
}

/// Kept at or below 0: sign * (figure - bound), in units of `scale`.
struct Bound {
  std::string figure;
  double sign, bound, scale;
};

/// The limits, and every goal but the first no worse than at the start.
std::vector<Bound> bounds_of(const VariantsFile& file, const VariantResult& start) {
  std::vector<Bound> bounds;
  for (const Limit& limit : file.limits) {
    if (std::isfinite(limit.above)) bounds.push_back({limit.figure, -1, limit.above, size_of(limit.above)});
    if (std::isfinite(limit.below)) bounds.push_back({limit.figure, 1, limit.below, size_of(limit.below)});
  }
  for (std::size_t g = 1; g < file.goals.size(); ++g) {
    const Measured now = start.figures.at(file.goals[g].figure);
    const double sign = file.goals[g].most ? -1 : 1, scale = size_of(now.value);
    bounds.push_back({file.goals[g].figure, sign, now.value + sign * 2 * inside_margin * scale, scale});
  }
  return bounds;
}

/// One climb from one design. NLopt sees every range as 0 ... 1 and asks for less of the objective.
class Climb {
public:
  Climb(const VariantsFile& file, const VariantPlan& plan, std::size_t start, const VariantResult& result,
        VariantStore& store, Crew& crew, Mesher& mesher, const ImproveOptions& options)
      : file_(file),
        plan_(plan),
        start_(start),
        store_(store),
        crew_(crew),
        mesher_(mesher),
        options_(options),
        ranges_(ranges_of(file)),
        bounds_(bounds_of(file, result)),
        goal_(file.goals.front()),
        scale_(size_of(result.figures.at(goal_.figure).value)),
        improvement_{start, plan.variants[start], result, 0, ""} {}

  Improvement run() {
    const auto n = static_cast<unsigned>(ranges_.size());
    const std::unique_ptr<nlopt_opt_s, void (*)(nlopt_opt)> opt(nlopt_create(NLOPT_LD_SLSQP, n),
                                                                nlopt_destroy);
    opt_ = opt.get();
    nlopt_set_lower_bounds1(opt_, 0);
    nlopt_set_upper_bounds1(opt_, 1);
    nlopt_set_min_objective(opt_, objective, this);
    const std::vector<double> exact(bounds_.size(), 0.0);
    if (!bounds_.empty())
      nlopt_add_inequality_mconstraint(opt_, static_cast<unsigned>(bounds_.size()), constraints, this,
                                       exact.data());
    std::vector<double> x(n);
    const auto now = numbers_of(plan_, ranges_, plan_.variants[start_]);
    for (unsigned r = 0; r < n; ++r)
      x[r] = std::clamp((now.at(ranges_[r].path) - ranges_[r].from) / (ranges_[r].to - ranges_[r].from), 0.0,
                        1.0);
    guarded([&] { scale_to_slopes(x); });
    nlopt_set_ftol_abs(opt_, std::max(improvement_.result.figures.at(goal_.figure).error / scale_, 1e-5));
    nlopt_set_xtol_abs1(opt_, 1e-4);
    double least = 0;
    const nlopt_result code = nlopt_optimize(opt_, x.data(), &least);
    if (trouble_) std::rethrow_exception(trouble_);
    improvement_.ended = words_for(code);
    return improvement_;
  }

private:
  struct At {
    std::vector<double> x;
    std::map<std::string, double> numbers;
    Variant design;
    VariantResult result;
    std::unique_ptr<FigureSlopes> slopes = nullptr;
    bool usable() const { return !result.table_csv.empty(); }
  };

  /// Stored, or solved now. Nothing: stopped, or as many tables as allowed have been asked for.
  std::optional<VariantResult> ask(const Variant& design) {
    if ((options_.stop_requested && options_.stop_requested()) ||
        improvement_.tables >= file_.improve->tables) {
      nlopt_force_stop(opt_);
      return std::nullopt;
    }
    ++improvement_.tables;
    if (!store_.is_settled(design.key))
      if (const auto solved = solve_variant(design, crew_, options_.stop_requested))
        store_.add(design.key, *solved);
    const std::optional<VariantResult> result = completed_result(store_, design, file_.stroke);
    if (!result)
      nlopt_force_stop(opt_);
    else if (options_.on_table)
      options_.on_table(start_, *result);
    return result;
  }

  /// The objective gets slopes of about 1, so that the first step is a good part of the ranges.
  void scale_to_slopes(const std::vector<double>& x) {
    at(x.data());
    std::vector<double> slopes(x.size());
    put_slopes(goal_.figure, 1, slopes.data());
    double squares = 0;
    for (const double slope : slopes) squares += slope * slope;
    if (squares > 0) scale_ = std::sqrt(squares);
  }

  const At& at(const double* x) {
    const std::vector<double> asked(x, x + ranges_.size());
    if (at_ && at_->x == asked) return *at_;
    std::map<std::string, double> numbers;
    for (std::size_t r = 0; r < ranges_.size(); ++r)
      numbers[ranges_[r].path] = ranges_[r].from + asked[r] * (ranges_[r].to - ranges_[r].from);
    Variant design = changed_design(file_, plan_, plan_.variants[start_], numbers);
    const std::optional<VariantResult> result = ask(design);
    at_ = std::make_unique<At>(
        At{asked, numbers, std::move(design), result.value_or(VariantResult{"stopped", "", "", "", {}})});
    if (is_better(at_->result)) improvement_.best = at_->design, improvement_.result = at_->result;
    return *at_;
  }

  double merit(const VariantResult& result) const {
    const Measured* figure = figure_of(result, goal_.figure);
    return figure == nullptr ? -HUGE_VAL : (goal_.most ? 1 : -1) * figure->value;
  }

  bool is_better(const VariantResult& result) const {
    if (result.status != "ok" || !(merit(result) > merit(improvement_.result))) return false;
    return std::all_of(bounds_.begin(), bounds_.end(), [&](const Bound& bound) {
      const Measured* figure = figure_of(result, bound.figure);
      return figure != nullptr && bound.sign * (figure->value - bound.bound) < 0;
    });
  }

  /// Slopes of a figure by the scaled numbers, times `by`.
  void put_slopes(const std::string& figure, double by, double* slopes) {
    At& here = *at_;
    if (!here.usable()) return void(std::fill(slopes, slopes + ranges_.size(), 0.0));
    if (!here.slopes)
      here.slopes =
          std::make_unique<FigureSlopes>(file_, plan_, ranges_, here.design, here.numbers, here.result,
                                         mesher_, [this](const Variant& other) { return ask(other); });
    const std::vector<double> found = here.slopes->of(figure);
    for (std::size_t r = 0; r < found.size(); ++r)
      slopes[r] = by * found[r] * (ranges_[r].to - ranges_[r].from);
  }

  double objective_at(const double* x, double* slopes) {
    const At& here = at(x);
    const double sign = goal_.most ? -1 : 1;
    if (slopes != nullptr) put_slopes(goal_.figure, sign / scale_, slopes);
    const Measured* figure = figure_of(here.result, goal_.figure);
    return figure == nullptr ? refused_penalty : sign * figure->value / scale_;
  }

  void constraints_at(const double* x, double* values, double* slopes) {
    const At& here = at(x);
    for (std::size_t c = 0; c < bounds_.size(); ++c) {
      const Bound& bound = bounds_[c];
      const Measured* figure = figure_of(here.result, bound.figure);
      values[c] =
          figure == nullptr ? 1 : bound.sign * (figure->value - bound.bound) / bound.scale + inside_margin;
      if (slopes != nullptr) put_slopes(bound.figure, bound.sign / bound.scale, slopes + c * ranges_.size());
    }
  }

  /// Runs a callback; what it throws waits until NLopt, which is C, has returned.
  template <class F>
  void guarded(const F& f) {
    try {
      f();
    } catch (...) {
      if (!trouble_) trouble_ = std::current_exception();
      nlopt_force_stop(opt_);
    }
  }
  static double objective(unsigned, const double* x, double* slopes, void* self) {
    Climb& climb = *static_cast<Climb*>(self);
    double value = refused_penalty;
    climb.guarded([&] { value = climb.objective_at(x, slopes); });
    return value;
  }
  static void constraints(unsigned m, double* values, unsigned, const double* x, double* slopes, void* self) {
    Climb& climb = *static_cast<Climb*>(self);
    std::fill(values, values + m, 1.0);
    climb.guarded([&] { climb.constraints_at(x, values, slopes); });
  }

  std::string words_for(nlopt_result code) const {
    if (options_.stop_requested && options_.stop_requested()) return "stopped";
    if (improvement_.tables >= file_.improve->tables)
      return "as many tables as [improve] allows; a larger `tables` may go further";
    if (code == NLOPT_FTOL_REACHED) return "a step gained less than the bar of the goal";
    if (code == NLOPT_XTOL_REACHED) return "a step changed every number by less than 1/10000 of its range";
    return "no further step made it better";
  }

  const VariantsFile& file_;
  const VariantPlan& plan_;
  const std::size_t start_;
  VariantStore& store_;
  Crew& crew_;
  Mesher& mesher_;
  const ImproveOptions& options_;
  const std::vector<NumberRange> ranges_;
  const std::vector<Bound> bounds_;
  const Goal goal_;
  double scale_;  ///< of the goal: the objective is in units of it
  Improvement improvement_;
  nlopt_opt opt_ = nullptr;
  std::unique_ptr<At> at_;
  std::exception_ptr trouble_;
};

}  // namespace

std::vector<Improvement> improve(const VariantsFile& file, const VariantPlan& plan,
                                 const VariantResults& results, const std::vector<std::size_t>& ranked,
                                 VariantStore& store, const ImproveOptions& options) {
  std::vector<Improvement> all;
  Crew crew(0, {});
  Mesher mesher;
  for (std::size_t k = 0; k < std::min(ranked.size(), file.improve->starts); ++k) {
    if (options.stop_requested && options.stop_requested()) break;
    all.push_back(Climb(file, plan, ranked[k], *results[ranked[k]], store, crew, mesher, options).run());
  }
  return all;
}

}  // namespace coilpull
