// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/device_section.hpp"

#include "apps/output/device_text.hpp"
#include "apps/output/winding_text.hpp"

namespace coilpull {
namespace {

template <class Material>
void add_material(HtmlWriter& page, const std::string& part, const std::string& as_written,
                  const std::optional<Material>& known) {
  page.element("h3", part);
  page.open("dl");
  add_entry(page, "material", known ? known->name : as_written);
  if (known) {
    add_entry(page, "family", known->family);
    add_entry(page, "source", known->source);
    add_entry(page, "certainty", known->certainty);
    add_entry(page, "holds for", known->condition);
    add_entry(page, "do not use", known->beyond);
  } else {
    add_entry(page, "source", "the device file itself");
    add_entry(page, "certainty", "not stated");
  }
  page.close();
}

}  // namespace

void write_materials(HtmlWriter& page, const DeviceFile& file, const std::vector<ReportPicture>& steels) {
  const auto words_of = [&](const std::string& part) {
    const auto found = file.words_of.find(part);
    return found == file.words_of.end() ? PartWords{} : found->second;
  };
  for (const Core& core : file.device.cores)
    add_material(page, core.name, core.material, words_of(core.name).steel);
  for (const Magnet& magnet : file.device.magnets)
    add_material(page, magnet.name, magnet.material, words_of(magnet.name).grade);
  for (const ReportPicture& picture : steels) add_figure(page, picture);
}

void write_winding(HtmlWriter& page, const Device& device) {
  const std::string sheet = winding_sheets_text(device);
  if (sheet.empty()) page.element("p", "No coil names its wire, so that there is no winding sheet.");
  if (!sheet.empty()) add_lines(page, sheet);
  for (const std::string& warning : device_warnings(device)) add_caution(page, "Warning.", warning);
}

}  // namespace coilpull
