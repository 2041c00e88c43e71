// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/first_order_change.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "solver/device/faces.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {
namespace {

using Name = std::pair<std::string, std::string>;  // part, quantity

constexpr double same_m = 1e-12;

bool same_edges(const Face& a, const Face& b) {
  const auto same = [](Point p, Point q) { return std::hypot(p.r - q.r, p.z - q.z) < same_m; };
  if (a.edges.size() != b.edges.size()) return false;
  for (std::size_t k = 0; k < a.edges.size(); ++k) {
    const Edge &p = a.edges[k], &q = b.edges[k];
    if (!same(p.from, q.from) || !same(p.to, q.to) || p.centre.has_value() != q.centre.has_value())
      return false;
    if (p.centre && !same(*p.centre, *q.centre)) return false;
  }
  return true;
}

/// By how much each dimension grows [m]; nothing where a face without a name of its own changes.
std::optional<std::map<Name, double>> grown(const Device& from, const Device& to, double displacement) {
  const std::vector<Region> before = section_at(from, displacement).parts,
                            after = section_at(to, displacement).parts;
  const std::vector<Face> faces = faces_of(before), others = faces_of(after);
  if (faces.size() != others.size() || before.size() != after.size()) return std::nullopt;
  std::map<Name, double> changes;
  for (int k = 0; k < static_cast<int>(faces.size()); ++k) {
    const Face &face = faces[k], &other = others[k];
    const std::string& part = before[face.part].name;
    if (face.part != other.part || part != after[other.part].name) return std::nullopt;
    if (has_key(faces, k) && has_key(others, k))
      changes[{part, dimension_name(faces, k)}] = *dimension_of(other) - *dimension_of(face);
    else if (!same_edges(face, other))
      return std::nullopt;
  }
  return changes;
}

/// Relative changes of the magnets' strengths; nothing when one is turned.
std::optional<std::map<Name, double>> strengthened(const Device& from, const Device& to) {
  if (from.magnets.size() != to.magnets.size()) return std::nullopt;
  std::map<Name, double> changes;
  for (std::size_t k = 0; k < from.magnets.size(); ++k) {
    const MagnetLaw &a = from.magnets[k].law, &b = to.magnets[k].law;
    const double was = std::hypot(a.remanence_r_T, a.remanence_z_T),
                 is = std::hypot(b.remanence_r_T, b.remanence_z_T);
    const double turned = a.remanence_r_T * b.remanence_z_T - a.remanence_z_T * b.remanence_r_T;
    if (std::abs(turned) > 1e-9 * was * is) return std::nullopt;
    changes[{from.magnets[k].name, "remanence"}] = is / was - 1;
    changes[{from.magnets[k].name, "recoil permeability"}] =
        b.recoil_permeability / a.recoil_permeability - 1;
  }
  return changes;
}

}  // namespace

std::optional<double> first_order_change(const SensitivityList& list, const Device& from, const Device& to,
                                         double displacement) {
  auto changes = grown(from, to, displacement);
  const auto strengths = strengthened(from, to);
  if (!changes || !strengths) return std::nullopt;
  changes->insert(strengths->begin(), strengths->end());
  double sum = 0;
  for (const Sensitivity& one : list.ranked) {
    std::optional<double> change;
    for (const ChangeName& name : one.of) {
      const auto found = changes->find({name.part, name.quantity});
      if (found == changes->end()) continue;
      if (change && std::abs(*change - found->second) > same_m) return std::nullopt;  // they part
      change = found->second;
    }
    if (!change) continue;
    for (const ChangeName& name : one.of) {
      const bool known = changes->erase({name.part, name.quantity}) > 0;
      if (!known && std::abs(*change) > same_m) return std::nullopt;
    }
    sum += one.slope.value * *change;
  }
  const bool all_told = std::all_of(changes->begin(), changes->end(),
                                    [](const auto& left) { return std::abs(left.second) < same_m; });
  return all_told ? std::optional<double>(sum) : std::nullopt;
}

}  // namespace coilpull
