// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/extrapolation.hpp"

#include <algorithm>
#include <cmath>

#include "solver/sweep/vector_of.hpp"

namespace coilpull {
namespace {

constexpr std::size_t most_points = 4;
constexpr double most_magnified = 15.5;  // sum of |weight|: even steps give 15 with four points

/// A solved set and where it lies on the line, the wanted one being at 0.
struct Place {
  std::size_t set;
  double at;
};

std::vector<Place> nearest_first(std::size_t wanted, const std::vector<std::vector<double>>& currents,
                                 const std::vector<char>& solved) {
  const Eigen::VectorXd here = vector_of(currents[wanted]);
  std::vector<Place> places;
  for (std::size_t i = 0; i < currents.size(); ++i)
    if (solved[i]) places.push_back({i, (vector_of(currents[i]) - here).norm()});
  std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.at < b.at; });
  return places;
}

/// Those on the straight line through the wanted set and the nearest, with signed places along it.
std::vector<Place> on_one_line(std::size_t wanted, const std::vector<std::vector<double>>& currents,
                               const std::vector<Place>& places) {
  const Eigen::VectorXd here = vector_of(currents[wanted]);
  const Eigen::VectorXd along = (vector_of(currents[places.front().set]) - here) / places.front().at;
  std::vector<Place> line;
  for (const Place& place : places) {
    const double at = along.dot(vector_of(currents[place.set]) - here);
    if (std::abs(at) > (1 - 1e-9) * place.at) line.push_back({place.set, at});
  }
  return line;
}

std::vector<Share> lagrange(const std::vector<Place>& line, std::size_t count) {
  std::vector<Share> shares;
  for (std::size_t i = 0; i < count; ++i) {
    double weight = 1;
    for (std::size_t j = 0; j < count; ++j)
      if (j != i) weight *= line[j].at / (line[j].at - line[i].at);
    shares.push_back({line[i].set, weight});
  }
  return shares;
}

double magnified(const std::vector<Share>& shares) {
  double sum = 0;
  for (const Share& share : shares) sum += std::abs(share.weight);
  return sum;
}

}  // namespace

std::vector<Share> extrapolation_to(std::size_t wanted, const std::vector<std::vector<double>>& currents,
                                    const std::vector<char>& solved) {
  const std::vector<Place> places = nearest_first(wanted, currents, solved);
  if (places.empty()) return {};
  if (places.front().at == 0) return {{places.front().set, 1}};
  const std::vector<Place> line = on_one_line(wanted, currents, places);
  for (std::size_t count = std::min(most_points, line.size()); count > 1; --count)
    if (const std::vector<Share> shares = lagrange(line, count); magnified(shares) < most_magnified)
      return shares;
  return {{places.front().set, 1}};
}

}  // namespace coilpull
