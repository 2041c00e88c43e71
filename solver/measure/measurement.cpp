// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/measurement.hpp"

namespace coilpull {

const char* word_for(RowStatus status) {
  switch (status) {
    case RowStatus::ok:
      return "ok";
    case RowStatus::tolerance_not_met:
      return "tolerance_not_met";
    case RowStatus::not_converged:
      return "not_converged";
    case RowStatus::meshing_failed:
      return "meshing_failed";
    case RowStatus::stopped:
      return "stopped";
  }
  return "unknown";
}

}  // namespace coilpull
