// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/bodies.hpp"

#include <algorithm>
#include <numeric>

namespace coilpull {

std::vector<std::vector<std::string>> bodies_of(const Mesh& mesh) {
  const int parts = static_cast<int>(mesh.region_names.size()) - 1;  // the last region is air
  std::vector<int> body(parts), part_at(mesh.nodes.cols(), -1);
  std::iota(body.begin(), body.end(), 0);
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    const int part = mesh.region_of[t];
    if (part == parts) continue;
    for (const int node : mesh.triangles.col(t)) {
      const int other = part_at[node];
      part_at[node] = part;
      if (other < 0 || body[other] == body[part]) continue;
      const auto [kept, gone] = std::minmax(body[other], body[part]);
      std::replace(body.begin(), body.end(), int(gone), int(kept));
    }
  }
  std::vector<std::vector<std::string>> bodies;
  for (int first = 0; first < parts; ++first) {
    std::vector<std::string> names;
    for (int part = first; part < parts; ++part)
      if (body[part] == first) names.push_back(mesh.region_names[part]);
    if (!names.empty()) bodies.push_back(std::move(names));
  }
  return bodies;
}

std::string body_name(const std::vector<std::string>& parts) {
  std::string name;
  for (const std::string& part : parts) name += (name.empty() ? "" : "+") + part;
  return name;
}

}  // namespace coilpull
