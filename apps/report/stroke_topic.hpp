// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/advice/advice.hpp"
#include "apps/report/report_topic.hpp"

namespace coilpull {

/// The run in time with the plain choice of switching, as coilpull stroke tells it; without what the file
/// does not state (a voltage, a mass, a wire) the topic says what is missing.
/// @param table  of which the advice is
ReportTopic stroke_topic(const DeviceFile& file, const ForceTable& table, const Advice& advice);

}  // namespace coilpull
