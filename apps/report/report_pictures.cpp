// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/report_pictures.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "apps/commands/solve.hpp"
#include "apps/output/bh_picture.hpp"
#include "apps/output/device_picture.hpp"
#include "apps/output/field_picture.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/small_png.hpp"
#include "apps/report/chart_data.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {
namespace {

constexpr int divisions = 6;  ///< of a triangle's edge, for smooth flux lines

ReportPicture report_picture(const Canvas& canvas, double scale, const std::string& title,
                             const std::string& words) {
  return {title, words, small_png(canvas.pixels(scale)), canvas.width(), canvas.height()};
}

struct TablePoint {
  std::size_t displacement, set;
};

/// Where `better` prefers the force to all others; nothing when no force has the wanted sign.
std::vector<TablePoint> extreme(const ForceTableFile& table, double sign) {
  std::vector<TablePoint> found;
  double largest = 0;
  for (std::size_t d = 0; d < table.displacements.size(); ++d)
    for (std::size_t set = 0; set < table.currents_A.size(); ++set)
      if (const double force = sign * table.at(d, set).force_N; force > largest) {
        largest = force;
        found = {{d, set}};
      }
  return found;
}

std::vector<TablePoint> current_off(const ForceTableFile& table, std::size_t displacement) {
  for (std::size_t set = 0; set < table.currents_A.size(); ++set)
    if (std::all_of(table.currents_A[set].begin(), table.currents_A[set].end(),
                    [](double current) { return current == 0; }))
      return {{displacement, set}};
  return {};
}

void add_field(const ResultFolder& results, const std::string& title, const std::vector<TablePoint>& places,
               Mesher& mesher, std::vector<ReportPicture>& all) {
  for (const TablePoint& at : places) {
    const double displacement = results.table.displacements[at.displacement];
    const TabledForce& row = results.table.at(at.displacement, at.set);
    const auto solved = solve_point(results.device.device, displacement, results.table.currents_A[at.set],
                                    results.order, mesher);
    if (!solved) continue;
    const std::string words = "at " + shortest(in_mm(displacement)) + " mm, " +
                              label_of(results.table, at.set) + "; force " +
                              with_bar({row.force_N, row.bar_N}) + " N";
    all.push_back(
        report_picture(draw_field(sample(solved->field, divisions), results.device.device, displacement,
                                  "flux density and flux lines " + words, Halves::upper),
                       1, title, words));
  }
}

/// The curves that a page shows first, of one column and its bars.
template <class Column>
CurvesPicture curves_of(const ResultFolder& results, const Column& column) {
  const ForceTableFile& table = results.table;
  CurvesPicture picture;
  picture.title = results.device.device.title;
  picture.x_words = "displacement (mm)";
  for (const std::size_t set : curves_shown(table)) {
    const double last = static_cast<double>(table.currents_A.size() - 1);
    Curve curve{label_of(table, set), on_order_scale(last == 0 ? 0 : static_cast<double>(set) / last), {}};
    for (std::size_t d = 0; d < table.displacements.size(); ++d) {
      const Measured value = column(table.at(d, set));
      curve.points.push_back({in_mm(table.displacements[d]), value.value, value.error});
    }
    picture.curves.push_back(curve);
  }
  return picture;
}

}  // namespace

ReportPicture picture_of(const Canvas& drawing, const std::string& title, const std::string& words) {
  return report_picture(drawing, 1.25, title, words);
}

ReportPicture picture_of_curves(const CurvesPicture& curves) {
  std::string title = curves.below;
  if (!title.empty() && std::islower(static_cast<unsigned char>(title[0])))
    title[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(title[0])));
  CurvesPicture drawn = curves;
  drawn.foot.clear();  // the caption has it
  return report_picture(draw(drawn), 1.25, title, curves.foot);
}

ReportPicture picture_of_device(const Device& device) {
  return report_picture(draw_device(device, Halves::both), 1.5, "Section through the axis",
                        "Dimensions in mm; the moving parts stand at displacement 0.");
}

ReportPicture picture_of_forces(const ResultFolder& results) {
  CurvesPicture picture = curves_of(results, [](const TabledForce& row) {
    return Measured{row.force_N, row.bar_N};
  });
  picture.below = "axial force on the moving parts, one curve a set of currents; bands: numerical error bars";
  picture.foot = "force > 0 pushes towards +z, < 0 pulls towards -z";
  picture.y_words = "force (N)";
  return report_picture(draw(picture), 1.25, "Force against displacement", picture.below);
}

std::vector<ReportPicture> pictures_of_linkages(const ResultFolder& results) {
  std::vector<ReportPicture> all;
  for (std::size_t k = 0; k < results.table.circuits.size(); ++k) {
    const auto at = [k](const std::vector<double>& values) {
      return k < values.size() ? 1e3 * values[k] : std::nan("");
    };
    CurvesPicture picture = curves_of(results, [at](const TabledForce& row) {
      return Measured{at(row.linkage_Wb), at(row.linkage_bar_Wb)};
    });
    const std::string& circuit = results.table.circuits[k];
    picture.below =
        "flux linkage of " + circuit + ", one curve a set of currents; bands: numerical error bars";
    picture.y_words = "flux linkage (mWb)";
    all.push_back(report_picture(draw(picture), 1.25, "Flux linkage of " + circuit, picture.below));
  }
  return all;
}

std::vector<ReportPicture> pictures_of_steels(const Device& device) {
  std::vector<ReportPicture> all;
  if (const auto curves = bh_picture(device))
    all.push_back(
        report_picture(draw(*curves), 1.25, "Steels as they are used", "Dots: points of the source."));
  return all;
}

std::vector<ReportPicture> pictures_of_fields(const ResultFolder& results) {
  std::vector<ReportPicture> all;
  Mesher mesher;
  const std::vector<TablePoint> push = extreme(results.table, 1), pull = extreme(results.table, -1);
  add_field(results, "Strongest push", push, mesher, all);
  add_field(results, "Strongest pull", pull, mesher, all);
  if (!push.empty() || !pull.empty())
    add_field(results, "Current off",
              current_off(results.table, (push.empty() ? pull : push).front().displacement), mesher, all);
  return all;
}

}  // namespace coilpull
