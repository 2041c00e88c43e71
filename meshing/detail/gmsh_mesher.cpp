// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/gmsh_mesher.hpp"

#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>

namespace coilpull::detail {
namespace {

constexpr int line_type = 1, triangle_type = 2, point_type = 15;  // Gmsh's element types

/// A power of two, so that scaling is exact, that brings the drawing to a size near 1: Gmsh's own tolerances
/// are meant for that.
double scale_of(const std::vector<Point>& points) {
  double largest = 0;
  for (const Point p : points) largest = std::max({largest, std::abs(p.r), std::abs(p.z)});
  int exponent = 0;
  std::frexp(largest, &exponent);
  return std::ldexp(1.0, -exponent);
}

/// Gmsh shakes points by this fraction of the drawing to keep its Delaunay core out of ties. Its 1e-9 breaks
/// meshes whose smallest edge is below about 1e-6 of the drawing, while 1e-15 crashes it (both seen
/// with 4.8.4): a hundred-thousandth of the shortest edge, between these.
double shake(const MeshRequest& request) {
  double shortest = std::numeric_limits<double>::infinity(), extent = 0;
  for (std::size_t i = 0; i + 1 < request.lines.size(); i += 2) {
    const Point a = request.points[request.lines[i]], b = request.points[request.lines[i + 1]];
    shortest = std::min(shortest, std::hypot(a.r - b.r, a.z - b.z));
    extent = std::max({extent, std::abs(a.r - request.points[0].r), std::abs(a.z - request.points[0].z)});
  }
  return std::clamp(1e-5 * shortest / extent, 1e-12, 1e-9);
}

void set_options(const MeshRequest& request) {
  using gmsh::option::setNumber;
  setNumber("General.Terminal", 0);
  setNumber("General.NumThreads", 1);    // more: not reproducible
  setNumber("General.AbortOnError", 1);  // 2, the default, ends the process
  setNumber("Mesh.MeshSizeExtendFromBoundary", 0);
  setNumber("Mesh.MeshSizeFromPoints", 0);
  setNumber("Mesh.Algorithm", static_cast<double>(request.algorithm));
  setNumber("Mesh.RandomSeed", request.seed);
  setNumber("Mesh.RandomFactor", shake(request));
}

void draw(const MeshRequest& request, double scale) {
  namespace geo = gmsh::model::geo;
  for (std::size_t i = 0; i < request.points.size(); ++i)
    geo::addPoint(scale * request.points[i].r, scale * request.points[i].z, 0, 0, static_cast<int>(i) + 1);
  for (std::size_t i = 0; i + 1 < request.lines.size(); i += 2) {
    const int tag = static_cast<int>(i / 2) + 1;
    geo::addLine(request.lines[i] + 1, request.lines[i + 1] + 1, tag);
    geo::mesh::setTransfiniteCurve(tag, 2);  // two nodes: not cut any further
  }
  int loop_tag = 0, face_tag = 0;
  for (const auto& face : request.faces) {
    std::vector<int> loops;
    loops.reserve(face.size());
    for (const auto& loop : face) loops.push_back(geo::addCurveLoop(loop, ++loop_tag));
    geo::addPlaneSurface(loops, ++face_tag);
  }
  geo::synchronize();
}

/// The sources come sorted by size: the first that asks for no less than is already known ends the search.
class SizeCallback {
public:
  SizeCallback(const SizeField& sizes, double scale) : sizes_(sizes), scale_(scale) {}
  double operator()(double x, double y) const {
    const Point at = {x / scale_, y / scale_};
    double size = sizes_.largest;
    for (const SizeSource& s : sizes_.sources) {
      if (s.size >= size) break;
      const double dr = s.to.r - s.from.r, dz = s.to.z - s.from.z, square = dr * dr + dz * dz;
      const double along = (at.r - s.from.r) * dr + (at.z - s.from.z) * dz;
      const double t = square > 0 ? std::clamp(along / square, 0.0, 1.0) : 0.0;
      const double r = at.r - s.from.r - t * dr, z = at.z - s.from.z - t * dz;
      size = std::min(size, s.size + s.growth * std::sqrt(r * r + z * z));
    }
    return scale_ * size;
  }

private:
  const SizeField& sizes_;
  double scale_;
};

void set_sizes(const SizeCallback& sizes) {
#if GMSH_API_VERSION_MAJOR > 4 || (GMSH_API_VERSION_MAJOR == 4 && GMSH_API_VERSION_MINOR >= 9)
  gmsh::model::mesh::setSizeCallback(
      [sizes](int, int, double x, double y, double, double) { return sizes(x, y); });
#else
  gmsh::model::mesh::setSizeCallback([sizes](int, int, double x, double y, double) { return sizes(x, y); });
#endif
}

/// Node tags of Gmsh -> our numbers: the points of the request keep theirs, inner nodes follow.
std::vector<std::int32_t> number_nodes(std::size_t points, double scale, MeshReply& reply) {
  std::vector<std::size_t> tags, point_elements, point_nodes;
  std::vector<double> coordinates, parameters;
  gmsh::model::mesh::getNodes(tags, coordinates, parameters);
  gmsh::model::mesh::getElementsByType(point_type, point_elements, point_nodes);
  const std::size_t largest = tags.empty() ? 0 : *std::max_element(tags.begin(), tags.end());
  std::vector<std::int32_t> number(largest + 1, -1);
  for (std::size_t i = 0; i < std::min(points, point_nodes.size()); ++i)
    number[point_nodes[i]] = static_cast<std::int32_t>(i);
  for (std::size_t i = 0; i < tags.size(); ++i) {
    if (number[tags[i]] >= 0) continue;
    number[tags[i]] = static_cast<std::int32_t>(points + reply.inner_nodes.size());
    reply.inner_nodes.push_back({coordinates[3 * i] / scale, coordinates[3 * i + 1] / scale});
  }
  return number;
}

void fetch(const MeshRequest& request, double scale, MeshReply& reply) {
  const std::vector<std::int32_t> number = number_nodes(request.points.size(), scale, reply);
  for (int face = 1; face <= static_cast<int>(request.faces.size()); ++face) {
    std::vector<std::size_t> elements, nodes;
    gmsh::model::mesh::getElementsByType(triangle_type, elements, nodes, face);
    for (const std::size_t node : nodes) reply.triangles.push_back(number[node]);
    reply.triangles_of_face.push_back(static_cast<std::int32_t>(elements.size()));
  }
}

/// Errors and warnings out of the log, each once.
std::string troubles() {
  std::vector<std::string> log, kept;
  gmsh::logger::get(log);
  std::string all;
  for (const std::string& line : log)
    if ((line.rfind("Error", 0) == 0 || line.rfind("Warning", 0) == 0) &&
        std::find(kept.begin(), kept.end(), line) == kept.end() && kept.size() < 5) {
      kept.push_back(line);
      all += (all.empty() ? "" : "; ") + line;
    }
  return all;
}

}  // namespace

GmshMesher::GmshMesher() { gmsh::initialize(0, nullptr, false); }  // false: no settings of the user's own

GmshMesher::~GmshMesher() {
  try {
    gmsh::finalize();
  } catch (...) {  // the process is about to end; nobody is left to tell
  }
}

MeshReply GmshMesher::mesh(const MeshRequest& request) {
  MeshReply reply;
  const double scale = scale_of(request.points);
  try {
    gmsh::clear();
    set_options(request);
    gmsh::logger::start();
    gmsh::model::add("section");
    draw(request, scale);
    set_sizes(SizeCallback(request.sizes, scale));
    gmsh::model::mesh::generate(2);
    fetch(request, scale, reply);
  } catch (const std::exception& error) {
    reply.trouble = error.what();
  } catch (const std::string& error) {
    reply.trouble = error;
  } catch (...) {
    reply.trouble = "an exception without words";
  }
  try {
    const std::string said = troubles();
    reply.trouble += (reply.trouble.empty() || said.empty() ? "" : "; ") + said;
    gmsh::model::mesh::removeSizeCallback();
    gmsh::logger::stop();
  } catch (...) {
    reply.trouble += "; and its log cannot be read";
  }
  return reply;
}

}  // namespace coilpull::detail
