// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/device/faces.hpp"
#include "solver/fem/geometry.hpp"

namespace coilpull::detail {

/// How the nodes on the outlines move when one dimension of a drawing grows by t and every other line of the
/// drawing stays where it is: the faces keep their lines and slide along them where a neighbour pulls.
///   straight face       moves as a whole; at its corners it cuts the neighbours' unmoved lines
///   arc                 its radius grows; where a neighbour continues it smoothly, that line stays tangent
///   to it arc beside a face   that continues it smoothly: it goes along at that end, and stays at its other
///   one
/// A corner where other parts end as well takes the mean of what the parts ask for.
class FaceMotion {
public:
  /// @param faces  of the parts in the order of the mesh's regions, at the displacement of the mesh
  FaceMotion(const Mesh& mesh, const Topology& topology, std::vector<Face> faces);

  const std::vector<Face>& faces() const { return faces_; }
  /// Faces of touching parts that share a stretch move together: groups of places in faces(), rising.
  const std::vector<std::vector<int>>& groups() const { return groups_; }

  /// Per unit of t: the faces' nodes and those that slide; 0 elsewhere.
  NodeMotion of_group(const std::vector<int>& group) const;
  /// Parts shifted as a whole along +z.
  NodeMotion of_parts(const std::vector<int>& parts) const;
  /// (nodes): 1 on every border between two regions.
  const std::vector<char>& on_border() const { return on_border_; }

private:
  struct Member {
    int node;
    OnFace at;
  };
  struct End {  ///< of a face: where it meets its neighbour
    int face;
    bool last;
    int node;
    Eigen::Vector2d asks;  ///< velocity
    bool smooth;           ///< the neighbour continues the face without a corner
    int neighbour;         ///< face, or Face::none: the axis
  };
  void gather(const Mesh& mesh, const Topology& topology);
  void group_faces();
  const Member& end_of(int face, bool last) const;
  Eigen::Vector2d direction(int face, const OnFace& on, double sign) const;
  End end(int face, bool last, double sign) const;
  NodeMotion none() const;
  Eigen::Vector3d growing(int face) const;
  void move_arc(int face, const Eigen::Vector3d& by, NodeMotion& motion) const;
  void slide(const End& end, const Eigen::Vector2d& corner, NodeMotion& motion) const;
  Eigen::Vector2d agreed(const End& end, const std::vector<End>& ends, const std::vector<int>& group) const;

  std::vector<Face> faces_;
  std::vector<std::vector<Member>> members_;  ///< (faces), by rising u
  std::vector<std::vector<int>> arcs_;        ///< (faces): places in Mesh::arcs
  Eigen::Index all_arcs_;
  std::vector<std::vector<int>> groups_, outline_nodes_;
  std::vector<std::vector<int>> corner_faces_;  ///< (nodes): faces that end there
  std::vector<char> on_border_;
};

}  // namespace coilpull::detail
