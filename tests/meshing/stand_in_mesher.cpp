// SPDX-License-Identifier: GPL-3.0-or-later
// A mesher that answers well-formed but wrong meshes: which ones, the name says by which it is started.
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "meshing/detail/protocol.hpp"
#include "meshing/detail/worker_process.hpp"
#include "meshing/mesh_section.hpp"

using namespace coilpull::detail;

namespace {

bool read_all(void* to, std::size_t size) {
  for (auto* at = static_cast<char*>(to); size > 0;) {
    const ssize_t got = read(STDIN_FILENO, at, size);
    if (got <= 0) return false;
    at += got;
    size -= static_cast<std::size_t>(got);
  }
  return true;
}

MeshReply real_reply(const MeshRequest& request) {
  WorkerProcess real(coilpull::mesher_program());
  return real.ask(request, WorkerProcess::Clock::now() + std::chrono::seconds(60));
}

/// What the real mesher says while that is a small mesh. Each large one leaves a dot in $STAND_IN_COUNT.
MeshReply small_or_nothing(const MeshRequest& request) {
  constexpr std::size_t most_triangles = 1500;
  MeshReply reply = real_reply(request);
  if (reply.triangles.size() <= 3 * most_triangles) return reply;
  if (const char* count = std::getenv("STAND_IN_COUNT")) std::ofstream(count, std::ios::app) << '.';
  reply = {};
  reply.triangles_of_face.assign(request.faces.size(), 0);
  reply.trouble = "too large for a stand-in";
  return reply;
}

/// A mesh of the real mesher's with its last inner node moved far beyond its neighbours.
MeshReply folded(const MeshRequest& request) {
  MeshReply reply = real_reply(request);
  if (!reply.inner_nodes.empty()) reply.inner_nodes.back().r *= 0.5;
  return reply;
}

MeshReply answer(const std::string& kind, const MeshRequest& request) {
  if (kind == "SMALL_ONLY") return small_or_nothing(request);
  if (kind == "FOLDED") return folded(request);
  MeshReply reply;
  reply.triangles_of_face.assign(request.faces.size(), 0);
  if (kind == "MISCOUNTED") reply.triangles_of_face.push_back(1);
  if (kind == "NO_TRIANGLES") reply.trouble = "Error: nothing meshed";
  if (kind == "ONE_TRIANGLE")
    for (auto& count : reply.triangles_of_face) {
      count = 1;
      reply.triangles.insert(reply.triangles.end(), {0, 1, 2});
    }
  if (kind == "WILD_NODE") {
    reply.triangles_of_face[0] = 1;
    reply.triangles = {0, 1, 1 << 30};
  }
  return reply;
}

}  // namespace

int main(int, char** words) {
  const std::string kind = std::filesystem::path(words[0]).filename();
  for (FrameHeader header{}; read_all(&header, sizeof header);) {
    std::vector<std::byte> body(header.size);
    if (!read_all(body.data(), body.size())) return 1;
    const std::vector<std::byte> reply = to_bytes(answer(kind, request_from(body)));
    header = {reply_mark, reply.size()};
    if (write(STDOUT_FILENO, &header, sizeof header) < 0 ||
        write(STDOUT_FILENO, reply.data(), reply.size()) < 0)
      return 1;
  }
}
