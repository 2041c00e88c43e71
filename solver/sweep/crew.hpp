// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "meshing/mesh_section.hpp"

namespace coilpull {

/// Threads that each have a mesher of their own. The meshers stay from one run to the next.
class Crew {
public:
  /// @param threads  0: as many as the machine has cores
  Crew(int threads, MesherOptions options);

  /// Calls job(0) ... job(count - 1), each once, on some thread; returns when all are done.
  /// @throws the first exception of a job, after all threads have ended
  void run(std::size_t count, const std::function<void(std::size_t, Mesher&)>& job);

private:
  std::size_t most_;
  MesherOptions options_;
  std::vector<Mesher> meshers_;
};

}  // namespace coilpull
