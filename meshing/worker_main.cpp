// SPDX-License-Identifier: GPL-3.0-or-later
// coilpull-mesher: reads mesh requests on standard input, answers on standard output, ends with its input.
#include <poll.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

#include "meshing/detail/gmsh_mesher.hpp"

#ifdef COILPULL_COUNTED
extern "C" {
#include <gcov.h>
}
#endif

namespace {

using namespace coilpull::detail;

/// Ends this process at once, whatever libraries and threads hold; the counts of tests/coverage are written
/// first.
[[noreturn]] void end(int code) {
#ifdef COILPULL_COUNTED
  __gcov_dump();
#endif
  _exit(code);
}

bool read_all(void* to, std::size_t size) {
  auto* at = static_cast<char*>(to);
  while (size > 0) {
    const ssize_t got = read(STDIN_FILENO, at, size);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return false;
    at += got;
    size -= static_cast<std::size_t>(got);
  }
  return true;
}

bool write_all(int to, const void* from, std::size_t size) {
  const auto* at = static_cast<const char*>(from);
  while (size > 0) {
    const ssize_t put = write(to, at, size);
    if (put < 0 && errno == EINTR) continue;
    if (put <= 0) return false;
    at += put;
    size -= static_cast<std::size_t>(put);
  }
  return true;
}

/// Waits until the copy ends. Ends this process, and by that the copy, when the other end of its input goes
/// away, even in the middle of a mesh; Linux before 5.3 tells no such end, and the mesh is made to the last.
void wait_with_parent(pid_t copy) {
  struct stat input {};
  if (fstat(STDIN_FILENO, &input) != 0 || !S_ISSOCK(input.st_mode))
    return;  // a pipe may hang up with data left
  const auto ending = static_cast<int>(syscall(SYS_pidfd_open, copy, 0));
  if (ending < 0) return;
  pollfd watched[] = {{STDIN_FILENO, POLLRDHUP, 0}, {ending, POLLIN, 0}};
  while (poll(watched, 2, -1) < 0 && errno == EINTR) {
  }
  if (watched[0].revents != 0 && watched[1].revents == 0) end(0);
  close(ending);
}

/// Reads the rest of one request, meshes, answers. Returns the exit code of the process that did it.
int serve(const FrameHeader& header, GmshMesher& mesher, int replies) {
  if (header.mark != request_mark || header.size > largest_body) return 2;
  std::vector<std::byte> body(static_cast<std::size_t>(header.size));
  if (!read_all(body.data(), body.size())) return 2;
  const std::vector<std::byte> reply = to_bytes(mesher.mesh(request_from(body)));
  const FrameHeader answer = {reply_mark, reply.size()};
  return write_all(replies, &answer, sizeof answer) && write_all(replies, reply.data(), reply.size()) ? 0 : 3;
}

/// serve() in a copy of this process: a generator that has made a mesh makes the next one differently, so
/// that meshes would depend on which worker made what before. Ends as the copy ended.
int serve_in_copy(const FrameHeader& header, GmshMesher& mesher, int replies) {
  const pid_t parent = getpid(), copy = fork();
  if (copy < 0) return 4;
  if (copy == 0) {
    prctl(PR_SET_PDEATHSIG, SIGKILL);  // given up means given up
    end(getppid() == parent ? serve(header, mesher, replies) : 0);
  }
  wait_with_parent(copy);
  int status = 0;
  while (waitpid(copy, &status, 0) < 0 && errno == EINTR) {
  }
  if (WIFSIGNALED(status)) {
    signal(WTERMSIG(status), SIG_DFL);
    raise(WTERMSIG(status));
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : 4;
}

}  // namespace

int main() {
  signal(SIGINT, SIG_IGN);   // Ctrl-C is for the program that started us; its end ends us
  signal(SIGPIPE, SIG_IGN);  // a failed write is seen by write()
  // Nothing but replies may reach the parent: whatever a library prints goes where its errors go.
  const int replies = dup(STDOUT_FILENO);
  if (replies < 0 || dup2(STDERR_FILENO, STDOUT_FILENO) < 0) return 1;
  GmshMesher mesher;
  for (FrameHeader header{}; read_all(&header, sizeof header);) {
    const int code = serve_in_copy(header, mesher, replies);
    if (code != 0) return code;
  }
  return 0;
}
