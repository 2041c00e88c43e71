// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/device_file/read_device_file.hpp"
#include "apps/report/page_pieces.hpp"

namespace coilpull {

// What the device file says: of what the parts are made, how the coils are wound.

/// Each core and magnet with source, certainty and range; the B-H curves as used.
void write_materials(HtmlWriter& page, const DeviceFile& file, const std::vector<ReportPicture>& steels);
void write_winding(HtmlWriter& page, const Device& device);

}  // namespace coilpull
