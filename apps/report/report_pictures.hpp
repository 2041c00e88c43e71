// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/curves_picture.hpp"
#include "apps/report/result_folder.hpp"

namespace coilpull {

struct ReportPicture {
  std::string title, words;
  std::string png;  ///< the file's bytes
  double width, height;
};

/// Any drawing, as it is.
ReportPicture picture_of(const Canvas& drawing, const std::string& title, const std::string& words);

/// Curves as they are drawn for a file: below becomes the title, foot the words.
ReportPicture picture_of_curves(const CurvesPicture& curves);

/// The device as a dimensioned section.
ReportPicture picture_of_device(const Device& device);

/// The force curves with their bands for paper, where no pointer asks for values.
ReportPicture picture_of_forces(const ResultFolder& results);
/// Likewise the flux linkages, a picture a circuit.
std::vector<ReportPicture> pictures_of_linkages(const ResultFolder& results);

/// B-H curves of the steels as used; nothing without steel.
std::vector<ReportPicture> pictures_of_steels(const Device& device);

/// |B| and flux lines where the table pushes and pulls most, and there with the current off; solved again.
std::vector<ReportPicture> pictures_of_fields(const ResultFolder& results);

}  // namespace coilpull
