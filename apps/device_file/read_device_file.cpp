// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_device_file.hpp"

#include <algorithm>

#include "apps/device_file/keys.hpp"
#include "apps/device_file/nearest_name.hpp"
#include "apps/device_file/read_current.hpp"
#include "apps/device_file/read_motion.hpp"
#include "apps/device_file/read_parts.hpp"
#include "apps/device_file/read_sensor.hpp"
#include "materials/detail/one_line.hpp"

namespace coilpull {

namespace {

// Checks of a drawing take the square of its edges: a few seconds a displacement here, hours at ten times
// more.
constexpr std::size_t most_parts = 300;
constexpr std::size_t most_edges = 5000;
constexpr std::size_t longest_title = 200;

/// Takes the name into the file's list of names. @throws BadDevice  when it is no name or already taken
void enter_name(const std::string& name, const Place& place, DeviceFile& file) {
  if (!is_plain_name(name))
    refuse(place, "a name has letters, digits, _ and - only, and at most 60 of them.",
           "It becomes part of column and file names.");
  if (name == "air") refuse(place, "air is the name of what no part covers.", "Choose another name.");
  const auto [entry, is_new] = file.place_of.emplace(name, place);
  const Place& taken = entry->second;
  if (!is_new)
    refuse(place, "[" + taken.table + "] in line " + std::to_string(taken.line) + " has this name already.",
           "Names are unique over cores, coils, magnets and sensors.");
}

/// The tables [kind.<name>] in file order; enters their names.
std::vector<std::pair<std::string, Table>> named_tables(const Table& root, const std::string& kind,
                                                        DeviceFile& file) {
  std::vector<std::pair<std::string, Table>> tables;
  const auto all = root.find(kind);
  if (!all) return tables;
  const std::string advice = "Write the header as [" + kind + ".NAME], with a name of your own.";
  if (!all->node->is_table()) refuse(all->place, "every " + kind + " needs a name.", advice);
  const Table tables_of_kind = section(*all, root.text(), "");
  if (all->node->as_table()->size() > most_parts)
    refuse(all->place, "there are " + std::to_string(all->node->as_table()->size()) + " of a kind.",
           "A device has at most " + std::to_string(most_parts) + " of each.");
  for (const auto& [name, value] : tables_of_kind.in_file_order()) {
    const toml::table* node = value.node->as_table();
    if (node == nullptr || node->is_inline()) refuse(value.place, "every " + kind + " needs a name.", advice);
    tables.emplace_back(name, section(value, root.text(), ""));
    enter_name(name, tables.back().second.place(), file);
  }
  return tables;
}

void read_title_and_tolerance(const Table& root, Device& device) {
  if (const auto title = root.find("title")) {
    device.title = text(*title);
    if (const std::string why = detail::why_not_one_line(device.title, longest_title); !why.empty())
      refuse(title->place, why + ".", "It heads every picture and table.");
  }
  if (const auto tolerance = root.find("tolerance")) {
    device.tolerance = number(*tolerance);
    if (!(device.tolerance > 0 && device.tolerance < 1))
      refuse(
          tolerance->place, "has to lie between 0 and 1.",
          "It is the wanted error bar as a fraction of the largest |force|: 0.001 is a tenth of a percent.");
  }
}

void read_cores(const Table& root, MaterialSources& sources, DeviceFile& file) {
  for (const auto& [name, table] : named_tables(root, "core", file))
    file.device.cores.push_back(read_core(name, table, sources, file.words_of[name]));
}

void read_coils(const Table& root, DeviceFile& file) {
  std::vector<std::string>& circuits = file.device.circuits;
  for (const auto& [name, table] : named_tables(root, "coil", file)) {
    file.device.coils.push_back(read_coil(name, table));
    const std::string& circuit = file.device.coils.back().circuit;
    if (std::find(circuits.begin(), circuits.end(), circuit) == circuits.end()) circuits.push_back(circuit);
  }
}

void read_magnets(const Table& root, MaterialSources& sources, DeviceFile& file) {
  for (const auto& [name, table] : named_tables(root, "magnet", file))
    file.device.magnets.push_back(read_magnet(name, table, sources, file.words_of[name]));
}

void refuse_too_many_edges(const Device& device, const Place& place) {
  std::size_t edges = 0;
  for (const Core& core : device.cores) edges += core.outline.edges.size();
  for (const Coil& coil : device.coils) edges += coil.outline.edges.size();
  for (const Magnet& magnet : device.magnets) edges += magnet.outline.edges.size();
  if (edges > most_edges)
    refuse(place, "its outlines have " + std::to_string(edges) + " edges in all.",
           "A device is solved with at most " + std::to_string(most_edges) +
               "; a curve is drawn by a few arcs.");
}

void read_sensors(const Table& root, DeviceFile& file) {
  for (const auto& [name, table] : named_tables(root, "sensor", file)) {
    file.device.sensors.push_back(read_sensor(name, table, file.device));
    if (const auto switching = read_switching(table)) file.operation.sensors.emplace(name, *switching);
    table.refuse_unread_keys();
  }
}

void read_background(const Table& root, Device& device) {
  const auto found = root.find("background");
  if (!found) return;
  const Table table = section(*found, root.text(), "B_z_T = 0.01");
  device.background_bz_T =
      flux_density_T(table, "B_z", "The uniform field along z, for example B_z_T = 0.01").si;
  table.refuse_unread_keys();
}

}  // namespace

DeviceFile open_device_text(std::string_view text, const std::string& file_name,
                            const std::filesystem::path& folder) {
  const SourceText source = source_text(text, file_name);
  const toml::table parsed_text = parsed_toml(text, source);
  const Table root(parsed_text, source, Place{file_name, 0});
  for (const char* key : {"title", "tolerance", "core", "coil", "magnet", "motion", "current", "sensor",
                          "background", "spread", "supply", "duty", "mechanics"})
    root.find(key);
  root.refuse_unread_keys();  // first: a misspelt [coil] should not be reported as a current without a
                              // circuit
  DeviceFile file{{}, {}, file_name};
  file.text = text;
  MaterialSources sources{folder};
  read_title_and_tolerance(root, file.device);
  read_cores(root, sources, file);
  read_coils(root, file);
  read_magnets(root, sources, file);
  if (part_names(file.device).empty())
    refuse(root.place(), "describes no part.",
           "A device needs at least one [core.NAME], [coil.NAME] or [magnet.NAME].");
  refuse_too_many_edges(file.device, root.place());
  read_motion(root, file.device);
  read_current(root, file.device);
  read_sensors(root, file);
  read_background(root, file.device);
  file.spread = read_spread(root);
  file.states_spread = root.find("spread").has_value();
  file.operation.supply = read_supply(root);
  file.operation.duty = read_duty(root);
  file.operation.mechanics = read_mechanics(root);
  return file;
}

DeviceFile open_device_file(const std::filesystem::path& path) {
  return open_device_text(text_of_file(path, "a device file"), path.string(), path.parent_path());
}

Device read_device_text(std::string_view text, const std::string& file_name,
                        const std::filesystem::path& folder) {
  return open_device_text(text, file_name, folder).device;
}

Device read_device_file(const std::filesystem::path& path) { return open_device_file(path).device; }

std::string explain(const BadSection& trouble, const DeviceFile& file) {
  std::string places;
  for (const std::string& part : {trouble.first, trouble.second}) {
    const auto found = file.place_of.find(part);
    if (found != file.place_of.end()) places += (places.empty() ? "" : " and ") + describe(found->second);
  }
  return (places.empty() ? file.file_name : places) + ": " + trouble.what();
}

}  // namespace coilpull
