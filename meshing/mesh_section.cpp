// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/mesh_section.hpp"

#include <unistd.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <utility>

#include "meshing/detail/build_mesh.hpp"
#include "meshing/detail/cut_edges.hpp"
#include "meshing/detail/planar_map.hpp"
#include "meshing/detail/worker_process.hpp"

namespace coilpull {
namespace {

using namespace detail;

struct Try {
  Algorithm algorithm;
  double scale;  ///< of the sizes
  const char* words;
};

/// Frontal makes the better triangles but may leave flat ones on steeply graded edges; Delaunay does not.
constexpr std::array tries = {Try{Algorithm::frontal, 1.0, "frontal"},
                              Try{Algorithm::delaunay, 1.0, "Delaunay"},
                              Try{Algorithm::frontal, 0.8, "frontal, sizes x 0.8"},
                              Try{Algorithm::delaunay, 0.8, "Delaunay, sizes x 0.8"}};

}  // namespace

struct Mesher::Worker {
  explicit Worker(const std::string& program) : process(program) {}
  WorkerProcess process;
};

Mesher::Mesher(MesherOptions options) : options_(std::move(options)) {}
Mesher::~Mesher() = default;
Mesher::Mesher(Mesher&&) noexcept = default;
Mesher& Mesher::operator=(Mesher&&) noexcept = default;

void Mesher::start() noexcept {
  try {
    if (!worker_)
      worker_ = std::make_unique<Worker>(options_.program.empty() ? mesher_program() : options_.program);
  } catch (...) {
    worker_.reset();  // mesh() starts it again, and tells
  }
}

Mesh Mesher::mesh(const Section& section) {
  start();  // it loads while the drawing is checked
  const PlanarMap map = planar_map(section);
  const auto until =
      WorkerProcess::Clock::now() + std::chrono::duration_cast<WorkerProcess::Clock::duration>(
                                        std::chrono::duration<double>(options_.seconds_allowed));
  std::string tried;
  std::optional<CutDrawing> cut;
  double scale = 0;
  for (const Try& one : tries) {
    if (one.scale != scale) {
      cut = cut_edges(map, varied(section.sizes, {one.scale, options_.seed}), options_);
      scale = one.scale;  // NOLINT(clang-analyzer-deadcode.DeadStores): read in the next round
    }
    const auto& [edges, sizes] = *cut;
    MeshRequest request = request_for(map, edges);
    request.algorithm = one.algorithm;
    request.seed = options_.seed;
    request.sizes = sizes;
    std::string fact, words;
    bool hopeless = false;
    try {
      if (!worker_)
        worker_ = std::make_unique<Worker>(options_.program.empty() ? mesher_program() : options_.program);
      const MeshReply reply = worker_->process.ask(request, until);
      words = reply.trouble;
      return build_mesh(section, map, edges, reply, options_.quality_above);
    } catch (const UnusableMesh& unusable) {
      fact = unusable.what();
    } catch (const WorkerTooSlow& slow) {
      worker_.reset();
      fact = slow.what();
      hopeless = true;
    } catch (const WorkerFailed& failed) {
      worker_.reset();
      fact = failed.what();
    } catch (const BadFrame& bad) {
      worker_.reset();
      fact = std::string("the mesher's answer cannot be read: ") + bad.what();
    } catch (...) {
      worker_.reset();
      throw;
    }
    tried += std::string(tried.empty() ? "" : "\n") + "  " + one.words + ": " + fact;
    if (!words.empty()) tried += " (it said: " + words + ")";
    if (hopeless) break;
  }
  throw MeshingFailed("no usable mesh; tried\n" + tried);
}

std::string mesher_program() {
  namespace fs = std::filesystem;
  if (const char* set = std::getenv("COILPULL_MESHER"); set && *set) return set;
  std::error_code error;
  const fs::path running = fs::read_symlink("/proc/self/exe", error);
  const fs::path beside = running.parent_path() / "coilpull-mesher";
  for (const fs::path& candidate : {beside, fs::path(COILPULL_BUILT_MESHER)})
    if (access(candidate.c_str(), X_OK) == 0) return candidate.string();
  return COILPULL_INSTALLED_MESHER;
}

}  // namespace coilpull
