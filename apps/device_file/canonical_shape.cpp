// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/canonical_text.hpp"
#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/simple_shapes.hpp"

namespace coilpull {

namespace {

bool same(const Outline& a, const Outline& b) {
  if (a.edges.size() != b.edges.size()) return false;
  for (std::size_t i = 0; i < a.edges.size(); ++i) {
    const Edge &x = a.edges[i], &y = b.edges[i];
    if (!(x.from == y.from && x.to == y.to) || x.centre.has_value() || y.centre.has_value()) return false;
  }
  return true;
}

std::string point_text(const Edge& edge) {
  std::string words = "  { " + toml_length("r", edge.to.r) + ", " + toml_length("z", edge.to.z);
  if (edge.centre)
    words += ", " + toml_length("centre_r", edge.centre->r) + ", " + toml_length("centre_z", edge.centre->z);
  return words + " },\n";
}

}  // namespace

std::string canonical_shape(const Outline& outline) {
  const Box box = bounding_box(outline);
  if (same(outline, plain_body(box))) {
    const std::string radii = box.r_from == 0 ? "cylinder = { " + toml_length("radius", box.r_to)
                                              : "tube = { " + toml_length("inner_radius", box.r_from) + ", " +
                                                    toml_length("outer_radius", box.r_to);
    return radii + ", " + toml_length("from", box.z_from) + ", " + toml_length("to", box.z_to) + " }";
  }
  std::string words = "profile = [\n";
  for (const Edge& edge : outline.edges) words += point_text(edge);
  return words + "]";
}

}  // namespace coilpull
