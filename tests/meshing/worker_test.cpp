// SPDX-License-Identifier: GPL-3.0-or-later
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

#include "meshing/bad_section.hpp"
#include "meshing/detail/protocol.hpp"
#include "meshing/detail/worker_process.hpp"
#include "meshing/mesh_section.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

/// A folder with a program in it that misbehaves as long as the file `broken` stands beside it, and else
/// becomes the mesher.
class BreakableMesher {
public:
  explicit BreakableMesher(const std::string& misbehaviour) {
    char name[] = "/tmp/coilpull_worker_test_XXXXXX";
    folder_ = mkdtemp(name);
    std::ofstream(folder_ / "broken") << "yes";
    std::ofstream(program()) << "#!/bin/sh\nif [ -e " << (folder_ / "broken") << " ]; then " << misbehaviour
                             << "; fi\nexec " << mesher_program() << "\n";
    fs::permissions(program(), fs::perms::owner_all);
  }
  ~BreakableMesher() { fs::remove_all(folder_); }
  BreakableMesher(const BreakableMesher&) = delete;
  BreakableMesher& operator=(const BreakableMesher&) = delete;
  fs::path program() const { return folder_ / "mesher"; }
  void repair() const { fs::remove(folder_ / "broken"); }

private:
  fs::path folder_;
};

MesherOptions with(const std::string& program, double seconds = 20) {
  MesherOptions options;
  options.program = program;
  options.seconds_allowed = seconds;
  return options;
}

std::string failure(Mesher& mesher) {
  try {
    mesher.mesh(in_air({block("core", 0, 5, 0, 5)}));
  } catch (const MeshingFailed& failed) {
    return failed.what();
  }
  return "";
}

bool says(const std::string& all, const std::string& part) { return all.find(part) != std::string::npos; }

/// Fails with the words, and works again once the program is repaired: the same object starts a fresh worker.
void check_recovers(const std::string& misbehaviour, const std::string& words, double seconds = 20) {
  const BreakableMesher breakable(misbehaviour);
  Mesher mesher(with(breakable.program().string(), seconds));
  const std::string message = failure(mesher);
  INFO(message);
  CHECK(says(message, words));
  breakable.repair();
  CHECK(failure(mesher) == "");
}

}  // namespace

TEST_CASE("a worker that crashes is named with its signal, and the next mesh works") {
  check_recovers("kill -SEGV $$", "was ended by the signal Segmentation fault");
}

TEST_CASE("a worker that exits is named with its status, and the next mesh works") {
  check_recovers("exit 7", "exited with status 7");
  check_recovers("head -c 100 >/dev/null; exit 3", "exited with status 3");
}

TEST_CASE("a worker that hangs is given up after the time allowed, and the next mesh works") {
  const auto before = std::chrono::steady_clock::now();
  check_recovers("exec sleep 1000", "did not answer in the time allowed", 2);
  CHECK(std::chrono::steady_clock::now() - before < std::chrono::seconds(30));  // not 1000
}

TEST_CASE("a worker that answers nonsense is found out, and the next mesh works") {
  check_recovers("echo what the mesher never says; exec sleep 1000",
                 "cannot be read: it does not begin with");
  // the reply's mark, then a body of 8 bytes that announces 2^63 characters
  check_recovers("printf 'COLPTRY1\\010\\0\\0\\0\\0\\0\\0\\0\\0\\0\\0\\0\\0\\0\\0\\200'; exec sleep 1000",
                 "a count goes beyond the end of the frame");
  // a body of nearly 4 GiB that never comes
  check_recovers("printf 'COLPTRY1\\0\\0\\0\\377\\0\\0\\0\\0'; exit 5", "exited with status 5");
}

TEST_CASE("a crash with one algorithm does not lose the mesh when the next one works") {
  const BreakableMesher breakable("rm $(dirname $0)/broken; kill -ABRT $$");
  Mesher mesher(with(breakable.program().string()));
  CHECK(failure(mesher) == "");
}

TEST_CASE("a worker that is killed between two meshes is replaced") {
  // The shell leaves its number and becomes the mesher, in the same process.
  const BreakableMesher breakable("echo $$ > $(dirname $0)/number");
  Mesher mesher(with(breakable.program().string()));
  CHECK(failure(mesher) == "");
  pid_t number = 0;
  std::ifstream(breakable.program().parent_path() / "number") >> number;
  REQUIRE(number > 1);
  REQUIRE(kill(number, SIGKILL) == 0);
  CHECK(failure(mesher) == "");
}

TEST_CASE("an incomplete mesh is not accepted, and the generator's words are passed on") {
  Mesher empty(with(STAND_IN_NO_TRIANGLES));
  const std::string message = failure(empty);
  CHECK(says(message, "frontal: no triangles in core (it said: Error: nothing meshed)"));
  CHECK(says(message, "Delaunay: no triangles in core"));
  Mesher one(with(STAND_IN_ONE_TRIANGLE));
  CHECK(says(failure(one), "frontal: "));
  Mesher wild(with(STAND_IN_WILD_NODE));
  CHECK(says(failure(wild), "a triangle of core has a node that does not exist"));
  Mesher miscounted(with(STAND_IN_MISCOUNTED));
  CHECK(says(failure(miscounted), "frontal: the reply does not fit the request"));
  Mesher folded(with(STAND_IN_FOLDED));
  CHECK(says(failure(folded), "frontal: two triangles on the same side of an edge at r = "));
}

TEST_CASE("a drawing that the generator refuses comes back with its words, and the next one is meshed") {
  using namespace detail;
  WorkerProcess worker(mesher_program());
  const auto until = WorkerProcess::Clock::now() + std::chrono::seconds(20);
  MeshRequest request;
  request.points = {{0, 0}, {1, 0}, {0, 1}};
  request.lines = {0, 1, 1, 2, 2, 0};
  request.faces = {{{1, 2}}};  // a loop that does not close
  request.sizes = {10, {}};
  const MeshReply refused = worker.ask(request, until);
  CHECK(!refused.trouble.empty());
  CHECK(refused.triangles.empty());
  request.faces = {{{1, 2, 7}}};  // a line that is not there
  CHECK(!worker.ask(request, until).trouble.empty());
  request.faces = {{{1, 2, 3}}};
  const MeshReply meshed = worker.ask(request, until);
  CHECK(meshed.trouble == "");
  CHECK(meshed.triangles.size() == 3);
}

TEST_CASE("a worker that does not even read its request is given up after the time allowed") {
  using namespace detail;
  const BreakableMesher deaf("exec sleep 1000");
  WorkerProcess worker(deaf.program().string());
  MeshRequest request;
  request.points.resize(1000000);  // 16 MB: more than a socket holds
  CHECK_THROWS_AS(worker.ask(request, WorkerProcess::Clock::now() + std::chrono::milliseconds(500)),
                  WorkerTooSlow);
}

TEST_CASE("without a file descriptor left no worker starts, and that is told") {
  rlimit all{};
  REQUIRE(getrlimit(RLIMIT_NOFILE, &all) == 0);
  rlimit few = all;
  few.rlim_cur = 0;
  REQUIRE(setrlimit(RLIMIT_NOFILE, &few) == 0);
  Mesher mesher;
  const std::string message = failure(mesher);
  REQUIRE(setrlimit(RLIMIT_NOFILE, &all) == 0);
  CHECK(says(message, "no socket for the mesher: Too many open files"));
  CHECK(failure(mesher) == "");
}

TEST_CASE("a program that is not there is named") {
  Mesher mesher(with("/nowhere/coilpull-mesher"));
  mesher.start();
  CHECK(says(failure(mesher), "the mesher /nowhere/coilpull-mesher cannot be started: No such file"));
}

TEST_CASE("a bad section does not cost the worker") {
  Mesher mesher;
  CHECK(failure(mesher) == "");
  CHECK_THROWS_AS(mesher.mesh(in_air({block("a", 0, 5, 0, 5), block("b", 4, 6, 1, 2)})), BadSection);
  CHECK(failure(mesher) == "");
}

TEST_CASE("the generator's library is loaded by the worker alone") {
  CHECK(Mesher().mesh(in_air({})).triangles.cols() > 0);
  std::ifstream maps("/proc/self/maps");
  const std::string loaded((std::istreambuf_iterator<char>(maps)), std::istreambuf_iterator<char>());
  CHECK(says(loaded, "libc.so"));
  CHECK(!says(loaded, "libgmsh"));
}

TEST_CASE("several meshers work in several threads") {
  const Section section = rod_winding_magnet();
  const Mesh expected = Mesher().mesh(section);
  bool same[3] = {false, false, false};
  std::vector<std::thread> threads;
  for (bool& one : same) threads.emplace_back([&] { one = same_bits(Mesher().mesh(section), expected); });
  for (std::thread& thread : threads) thread.join();
  for (const bool one : same) CHECK(one);
}

TEST_CASE("the worker ends with the program that started it, even in the middle of its work") {
  // A child starts a mesher on a mesh of many seconds and is killed; its worker must go too. The pipe's write
  // end is handed down on purpose: it closes only when child and worker are both gone.
  int ends[2];
  REQUIRE(pipe(ends) == 0);
  const pid_t child = fork();
  if (child == 0) {
    close(ends[0]);
    Section section = in_air({block("core", 0, 5, 0, 5)});
    section.sizes = {3e-5, {}};  // ten million triangles
    std::thread([] {
      std::this_thread::sleep_for(std::chrono::seconds(1)), kill(getpid(), SIGKILL);
    }).detach();
    try {
      Mesher().mesh(section);
    } catch (...) {
    }
    _exit(1);
  }
  close(ends[1]);
  int status = 0;
  waitpid(child, &status, 0);
  CHECK(WIFSIGNALED(status));
  const auto died = std::chrono::steady_clock::now();
  char byte;
  CHECK(read(ends[0], &byte, 1) == 0);  // waits for the last writer to go
  close(ends[0]);
  CHECK(std::chrono::steady_clock::now() - died < std::chrono::seconds(20));  // the mesh takes minutes
}

TEST_CASE("a request and a reply survive the way through bytes, a cut or longer frame does not pass") {
  using namespace detail;
  MeshRequest request;
  request.algorithm = Algorithm::delaunay;
  request.points = {{1, 2}, {3, 4}, {0.1, 0.2}};
  request.lines = {0, 1, 1, 2, 2, 0};
  request.faces = {{{1, 2, 3}}, {{1, -2}, {-3}}};
  request.sizes = {0.5, {{{0, 1}, {2, 3}, 0.25, 0.125}}};
  const std::vector<std::byte> bytes = to_bytes(request);
  CHECK(to_bytes(request_from(bytes)) == bytes);
  for (std::size_t cut = 0; cut < bytes.size(); ++cut)
    CHECK_THROWS_AS(request_from({bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(cut)}),
                    BadFrame);
  std::vector<std::byte> longer = bytes;
  longer.push_back(std::byte{0});
  CHECK_THROWS_AS(request_from(longer), BadFrame);
}
