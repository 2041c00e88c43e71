// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/best_switching.hpp"

#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace coilpull {
namespace {

class Search {
public:
  Search(const StrokePlan& plan, const CoenergyFunction& function, const BestOptions& options)
      : plan_(plan), function_(function), options_(options), x_{0, 0, plan.pitch} {
    most_ = value_of(x_);
  }

  void go(nlopt_algorithm algorithm, int runs) {
    const unsigned n = options_.least_pitch < options_.most_pitch ? 3 : 2;
    const std::unique_ptr<nlopt_opt_s, void (*)(nlopt_opt)> opt(nlopt_create(algorithm, n), nlopt_destroy);
    const double lead = options_.most_lead;
    const double low[] = {-lead, -lead, options_.least_pitch}, high[] = {lead, lead, options_.most_pitch};
    nlopt_set_lower_bounds(opt.get(), low);
    nlopt_set_upper_bounds(opt.get(), high);
    nlopt_set_max_objective(opt.get(), objective, this);
    nlopt_set_maxeval(opt.get(), runs);
    nlopt_set_xtol_abs1(opt.get(), 1e-6);
    std::vector<double> x(x_.begin(), x_.begin() + n);
    double most = 0;
    nlopt_optimize(opt.get(), x.data(), &most);
  }

  StrokePlan best() const { return changed(x_); }
  double on_lead() const { return x_[0]; }
  double off_lead() const { return x_[1]; }
  double most() const { return most_; }
  int runs() const { return runs_; }

private:
  StrokePlan changed(const std::vector<double>& x) const {
    return with_leads(plan_, function_, x[0], x[1], x[2]);
  }

  /// Speed at the end; below 0 for a mover that does not leave, nearer to 0 the farther it comes.
  double value_of(const std::vector<double>& x) {
    const StrokePlan plan = changed(x);
    if (plan.way * (*plan.off - *plan.on) <= 0) return -2;
    ++runs_;
    const SwitchedRun run = simulate_switched_stroke(function_, plan.setup, plan.start, plan.options);
    const StrokeState& last = run.points.back().state;
    const bool leaves = run.end == (plan.way > 0 ? SwitchedEnd::left_high : SwitchedEnd::left_low);
    if (leaves) return plan.way * last.speed_m_per_s;
    const double length = function_.displacement().to() - function_.displacement().from() +
                          plan.pitch * static_cast<double>(plan.setup.stages.size() - 1);
    return -1 + plan.way * (last.displacement - plan.start.displacement) / length;
  }

  static double objective(unsigned n, const double* x, double*, void* self) {
    Search& search = *static_cast<Search*>(self);
    std::vector<double> full = {x[0], x[1], n > 2 ? x[2] : search.plan_.pitch};
    const double value = search.value_of(full);
    if (value > search.most_) search.most_ = value, search.x_ = full;
    return value;
  }

  const StrokePlan& plan_;
  const CoenergyFunction& function_;
  const BestOptions& options_;
  std::vector<double> x_;
  double most_ = 0;
  int runs_ = 0;
};

}  // namespace

BestOptions best_options(const StrokePlan& plan, const DriveTable& drive) {
  BestOptions search;
  search.most_lead = (drive.to() - drive.from()) / 4;
  if (plan.setup.stages.size() > 1) {
    search.least_pitch = std::max(plan.standing, 0.5 * plan.pitch);
    search.most_pitch = 1.5 * plan.pitch;
  }
  return search;
}

BestSwitching best_switching(const DeviceFile& file, const StrokePlan& plan, const CoenergyFunction& function,
                             const BestOptions& options) {
  if (!plan.on || !plan.off)
    throw BadDevice(file.file_name +
                    ": --best moves the places of switching.\n  Leave out --on-by, --off-by and "
                    "--off-after-ms.");
  Search search(plan, function, options);
  const double plain = search.most();
  search.go(NLOPT_GN_DIRECT_L, options.global_runs);
  search.go(NLOPT_LN_SBPLX, options.local_runs);
  return {search.best(), search.on_lead(), search.off_lead(), plain, search.most(), search.runs()};
}

}  // namespace coilpull
