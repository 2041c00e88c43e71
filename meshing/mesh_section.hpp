// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <stdexcept>
#include <string>

#include "meshing/mesh.hpp"
#include "meshing/section.hpp"

namespace coilpull {

/// The mesher gave no usable mesh: its own words, the region, what was tried.
struct MeshingFailed : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// How meshes are made.
struct MesherOptions {
  std::string program = {};      ///< the mesher worker; empty: see mesher_program()
  double seconds_allowed = 60;   ///< a mesh that takes longer is given up
  double quality_above = 0.002;  ///< 2 inradius / circumradius of every triangle (1: equilateral); a flat
                                 ///< triangle in a hair gap, 39 gaps long, has 0.002
  unsigned seed = 1;  ///< another seed gives an independent mesh: sizes within 3 %, other nodes on curves
};

/// Makes meshes in a process of its own, so that no crash, hang or start-up cost of the mesh generator
/// reaches ours. The worker starts with start() or the first mesh and ends with this object; after a failure
/// the next call starts a fresh one. One object serves one thread at a time; several may work at once.
class Mesher {
public:
  explicit Mesher(MesherOptions options = {});
  ~Mesher();
  Mesher(Mesher&&) noexcept;
  Mesher& operator=(Mesher&&) noexcept;

  /// Starts the worker without waiting for it, so that its loading overlaps other work. Never throws: what
  /// goes wrong is told by mesh().
  void start() noexcept;

  /// Triangles of the sizes asked for, growing by no more than 0.6 per unit of distance, and smaller where
  /// the drawing is finer than these: beside short edges, and along narrow gaps and thin walls as far as
  /// quality_above needs. The same section, options and generator give the same mesh to the last bit.
  /// @throws BadSection     parts overlap, cross each other or themselves, or leave the half circle
  /// @throws MeshingFailed  the generator crashed, ran out of time, or returned an unusable mesh
  Mesh mesh(const Section& section);

private:
  struct Worker;
  MesherOptions options_;
  std::unique_ptr<Worker> worker_;
};

/// Where the worker is: $COILPULL_MESHER, else beside the running program, else where it was built or
/// installed.
std::string mesher_program();

}  // namespace coilpull
