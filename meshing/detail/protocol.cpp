// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/protocol.hpp"

#include <cstring>
#include <type_traits>

namespace coilpull::detail {
namespace {

class Writer {
public:
  template <class T>
  void put(const T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    const auto* first = reinterpret_cast<const std::byte*>(&value);
    bytes.insert(bytes.end(), first, first + sizeof value);
  }
  template <class T>
  void put_all(const T& values) {
    put(static_cast<std::uint64_t>(values.size()));
    const auto* first = reinterpret_cast<const std::byte*>(values.data());
    bytes.insert(bytes.end(), first, first + values.size() * sizeof(typename T::value_type));
  }
  std::vector<std::byte> bytes;
};

class Reader {
public:
  explicit Reader(const std::vector<std::byte>& bytes) : bytes_(bytes) {}
  template <class T>
  T get() {
    static_assert(std::is_trivially_copyable_v<T>);
    T value;
    std::memcpy(&value, take(1, sizeof value), sizeof value);
    return value;
  }
  template <class T>
  T get_all() {
    using Value = typename T::value_type;
    static_assert(std::is_trivially_copyable_v<Value>);
    const auto count = get<std::uint64_t>();
    const std::byte* from = take(count, sizeof(Value));
    T values(static_cast<std::size_t>(count), Value{});
    if (count > 0) std::memcpy(values.data(), from, static_cast<std::size_t>(count) * sizeof(Value));
    return values;
  }
  std::size_t count_of_at_least(std::size_t bytes_each) {
    const auto count = get<std::uint64_t>();
    if (count > (bytes_.size() - at_) / bytes_each)
      throw BadFrame("a count goes beyond the end of the frame");
    return static_cast<std::size_t>(count);
  }
  void finish() const {
    if (at_ != bytes_.size()) throw BadFrame("bytes left over at the end of the frame");
  }

private:
  const std::byte* take(std::uint64_t count, std::size_t bytes_each) {
    if (count > (bytes_.size() - at_) / bytes_each)
      throw BadFrame("a count goes beyond the end of the frame");
    const std::byte* from = bytes_.data() + at_;
    at_ += static_cast<std::size_t>(count) * bytes_each;
    return from;
  }
  const std::vector<std::byte>& bytes_;
  std::size_t at_ = 0;
};

}  // namespace

std::vector<std::byte> to_bytes(const MeshRequest& request) {
  Writer w;
  w.put(request.algorithm);
  w.put(request.seed);
  w.put_all(request.points);
  w.put_all(request.lines);
  w.put(static_cast<std::uint64_t>(request.faces.size()));
  for (const auto& face : request.faces) {
    w.put(static_cast<std::uint64_t>(face.size()));
    for (const auto& loop : face) w.put_all(loop);
  }
  w.put(request.sizes.largest);
  w.put_all(request.sizes.sources);
  return std::move(w.bytes);
}

MeshRequest request_from(const std::vector<std::byte>& body) {
  Reader r(body);
  MeshRequest request;
  request.algorithm = r.get<Algorithm>();
  request.seed = r.get<std::uint32_t>();
  request.points = r.get_all<std::vector<Point>>();
  request.lines = r.get_all<std::vector<std::int32_t>>();
  request.faces.resize(r.count_of_at_least(sizeof(std::uint64_t)));
  for (auto& face : request.faces) {
    face.resize(r.count_of_at_least(sizeof(std::uint64_t)));
    for (auto& loop : face) loop = r.get_all<std::vector<std::int32_t>>();
  }
  request.sizes.largest = r.get<double>();
  request.sizes.sources = r.get_all<std::vector<SizeSource>>();
  r.finish();
  return request;
}

std::vector<std::byte> to_bytes(const MeshReply& reply) {
  Writer w;
  w.put_all(reply.trouble);
  w.put_all(reply.inner_nodes);
  w.put_all(reply.triangles);
  w.put_all(reply.triangles_of_face);
  return std::move(w.bytes);
}

MeshReply reply_from(const std::vector<std::byte>& body) {
  Reader r(body);
  MeshReply reply;
  reply.trouble = r.get_all<std::string>();
  reply.inner_nodes = r.get_all<std::vector<Point>>();
  reply.triangles = r.get_all<std::vector<std::int32_t>>();
  reply.triangles_of_face = r.get_all<std::vector<std::int32_t>>();
  r.finish();
  return reply;
}

}  // namespace coilpull::detail
