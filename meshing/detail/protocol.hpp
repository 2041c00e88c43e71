// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

#include "meshing/section.hpp"

namespace coilpull::detail {

// What travels between a Mesher and its worker: a frame is a header and a body of `size` bytes, in the byte
// order of the machine (both run on one). The worker answers every request frame with one reply frame.

struct FrameHeader {
  std::uint64_t mark;
  std::uint64_t size;  ///< of the body [bytes]
};
inline constexpr std::uint64_t request_mark = 0x31515254504C4F43;  // "COLPTRQ1"
inline constexpr std::uint64_t reply_mark = 0x31595254504C4F43;    // "COLPTRY1"
inline constexpr std::uint64_t largest_body = std::uint64_t{1} << 32;

enum class Algorithm : std::int32_t { delaunay = 5, frontal = 6 };

/// A plane straight-line drawing to fill with triangles. Its lines must not be cut any further.
struct MeshRequest {
  Algorithm algorithm = Algorithm::frontal;
  std::uint32_t seed = 1;
  std::vector<Point> points;        ///< [m]
  std::vector<std::int32_t> lines;  ///< pairs of points
  std::vector<std::vector<std::vector<std::int32_t>>>
      faces;  ///< per face its loops of +-(line + 1), outer first
  SizeField sizes{};
};

struct MeshReply {
  std::string trouble;                          ///< the generator's own words; empty: none
  std::vector<Point> inner_nodes;               ///< numbered on from the points of the request [m]
  std::vector<std::int32_t> triangles;          ///< triples of nodes, face by face
  std::vector<std::int32_t> triangles_of_face;  ///< how many
};

struct BadFrame : std::runtime_error {
  using std::runtime_error::runtime_error;
};

std::vector<std::byte> to_bytes(const MeshRequest& request);
std::vector<std::byte> to_bytes(const MeshReply& reply);
MeshRequest request_from(const std::vector<std::byte>& body);  ///< @throws BadFrame
MeshReply reply_from(const std::vector<std::byte>& body);      ///< @throws BadFrame

}  // namespace coilpull::detail
