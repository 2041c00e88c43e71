// SPDX-License-Identifier: GPL-3.0-or-later
// import coilpull. Everything is SI, and the unit stands in the name.
#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>
#include <pybind11/stl/filesystem.h>

#include <cmath>

#include "apps/device_file/canonical_text.hpp"
#include "apps/python/device_text.hpp"
#include "apps/python/solved_field.hpp"
#include "apps/python/table_arrays.hpp"
#include "apps/python/watched_sweep.hpp"

namespace py = pybind11;
using namespace coilpull;

namespace {

DeviceFile device_from(const py::dict& device, const std::filesystem::path& folder) {
  return open_device_text(device_text(device), "device", folder);
}

ForceTable solve_table(const DeviceFile& file, int threads, bool slopes, bool audit,
                       const py::object& progress) {
  SweepOptions options;
  options.threads = threads;
  options.slopes = slopes;
  options.audit = audit;
  return watched_sweep(file, options, progress);
}

std::vector<double> values_of(const std::vector<Measured>& measured, double Measured::*part) {
  std::vector<double> values;
  values.reserve(measured.size());
  for (const Measured& one : measured) values.push_back(one.*part);
  return values;
}

void add_device(py::module_& module) {
  py::class_<DeviceFile>(module, "Device",
                         "What is solved: read from a device file, or from a dictionary like it.")
      .def(py::init(&device_from), py::arg("device"), py::arg("folder") = std::filesystem::path(),
           "device: the tables and keys of a device file as dictionaries, units in the keys.\n"
           "folder: where paths to material files start. Raises BadDevice.")
      .def_static("from_file", &open_device_file, py::arg("path"), "A device file (TOML). Raises BadDevice.")
      .def_property_readonly("title", [](const DeviceFile& file) { return file.device.title; })
      .def_property_readonly("circuits", [](const DeviceFile& file) { return file.device.circuits; })
      .def_property_readonly(
          "text", &canonical_text,
          "The device in full, every default written out: a device file that reads back to it.")
      .def("table", &solve_table, py::arg("threads") = 0, py::kw_only(), py::arg("slopes") = false,
           py::arg("audit") = false, py::arg("progress") = py::none(),
           "Solves every displacement and set of currents; a row that fails is marked, see "
           "ForceTable.status.\n"
           "threads: 0: all cores. progress: called as progress(rows_done, rows); what it raises ends the "
           "run.\n"
           "Ctrl-C ends it as KeyboardInterrupt. Raises BadDevice when parts overlap.")
      .def("field", &solve_field_of, py::arg("displacement_m"), py::arg("current_A"), py::kw_only(),
           py::arg("order") = 4,
           "The field of one point. current_A: circuit -> ampere; one left out carries none.\n"
           "Raises BadDevice, or RuntimeError when it cannot be meshed or does not converge.")
      .def("__repr__",
           [](const DeviceFile& file) { return "<coilpull.Device \"" + file.device.title + "\">"; });
}

void add_table(py::module_& module) {
  const auto measured_grid = [](const ForceTable& table, double Measured::*part) {
    return grid_of(table, table.circuits.size(),
                   [part](const Measurement& row) { return values_of(row.linkage_Wb, part); });
  };
  py::class_<ForceTable>(module, "ForceTable",
                         "Arrays over (displacement, set of currents); what cannot be used is NaN.")
      .def_readonly("circuits", &ForceTable::circuits)
      .def_readonly("peak_force_N", &ForceTable::peak_force_N)
      .def_readonly("tolerance_reached", &ForceTable::tolerance_reached,
                    "Widest force bar over peak_force_N.")
      .def_property_readonly("displacement_m", &displacements_of, "(displacements,)")
      .def_property_readonly("current_A", &currents_of, "(sets, circuits)")
      .def_property_readonly(
          "force_N",
          [](const ForceTable& table) {
            return grid_of(table, [](const Measurement& row) { return row.force_N.value; });
          },
          "(displacements, sets); > 0 pushes the moving parts towards +z")
      .def_property_readonly(
          "force_numerical_error_N",
          [](const ForceTable& table) {
            return grid_of(table, [](const Measurement& row) { return row.force_N.error; });
          },
          "(displacements, sets): half width of the numerical error bar")
      .def_property_readonly(
          "flux_linkage_Wb",
          [measured_grid](const ForceTable& table) { return measured_grid(table, &Measured::value); },
          "(displacements, sets, circuits), all turns together")
      .def_property_readonly(
          "flux_linkage_numerical_error_Wb",
          [measured_grid](const ForceTable& table) { return measured_grid(table, &Measured::error); },
          "(displacements, sets, circuits)")
      .def_property_readonly(
          "coenergy_J",
          [](const ForceTable& table) {
            return grid_of(table, [](const Measurement& row) { return row.coenergy_J; });
          },
          "(displacements, sets)")
      .def_property_readonly(
          "force_slope_N_per_m",
          [](const ForceTable& table) {
            return grid_of(table, [](const Measurement& row) {
              return row.slopes ? row.slopes->force_per_displacement : std::nan("");
            });
          },
          "(displacements, sets); NaN without table(slopes=True)")
      .def_property_readonly("status", &statuses_of,
                             "lists over displacements and sets: \"ok\", \"tolerance_not_met\", ...");
}

void add_field(py::module_& module) {
  py::class_<SolvedField>(module, "Field", "One solved point of the stroke.")
      .def("flux_density_T", &flux_density_of, py::arg("r_m"), py::arg("z_m"),
           "(Br, Bz) at points, arrays of any one shape; NaN outside the half circle of radius_m about "
           "centre_m.")
      .def("vector_potential_Tm", &vector_potential_of, py::arg("r_m"), py::arg("z_m"),
           "A_phi at points, likewise; the flux through the circle there is 2 pi r A_phi.")
      .def_property_readonly("flux_linkage_Wb", &linkages_of, "(circuits,)")
      .def_property_readonly("coenergy_J", [](const SolvedField& solved) { return solved.field.coenergy_J; })
      .def_readonly("radius_m", &SolvedField::radius)
      .def_readonly("centre_m", &SolvedField::centre_z, "z of the half circle's centre");
}

}  // namespace

PYBIND11_MODULE(coilpull, module) {
  module.doc() =
      "Axial force between coil, steel and magnet against displacement and current, with error bars.\n"
      "On axis, statics. SI; the unit stands in the name.";
  module.attr("__version__") = COILPULL_VERSION;
  py::register_exception<BadDevice>(module, "BadDevice", PyExc_ValueError);
  add_device(module);
  add_table(module);
  add_field(module);
  module.def("device_text", &device_text, py::arg("device"), "A dictionary as the text of a device file.");
}
