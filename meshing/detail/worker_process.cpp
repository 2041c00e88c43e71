// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/worker_process.hpp"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <thread>

extern char** environ;

namespace coilpull::detail {
namespace {

constexpr std::chrono::milliseconds grace{200};  // for a process whose output ended, to end too

/// posix_spawn's two option objects, destroyed in any case.
struct SpawnPlan {
  SpawnPlan() {
    posix_spawn_file_actions_init(&files);
    posix_spawnattr_init(&attributes);
  }
  ~SpawnPlan() {
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&attributes);
  }
  SpawnPlan(const SpawnPlan&) = delete;
  SpawnPlan& operator=(const SpawnPlan&) = delete;
  posix_spawn_file_actions_t files;
  posix_spawnattr_t attributes;
};

int spawn(const std::string& program, int socket, pid_t& pid) {
  SpawnPlan plan;
  posix_spawn_file_actions_adddup2(&plan.files, socket, STDIN_FILENO);
  posix_spawn_file_actions_adddup2(&plan.files, socket, STDOUT_FILENO);
  posix_spawn_file_actions_addopen(&plan.files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  sigset_t interrupt;  // held back until the worker, once loaded, ignores it
  sigemptyset(&interrupt);
  sigaddset(&interrupt, SIGINT);
  posix_spawnattr_setsigmask(&plan.attributes, &interrupt);
  posix_spawnattr_setflags(&plan.attributes, POSIX_SPAWN_SETSIGMASK);
  std::string name = program;
  char* arguments[] = {name.data(), nullptr};
  return posix_spawn(&pid, program.c_str(), &plan.files, &plan.attributes, arguments, environ);
}

std::string words_for(int status) {
  if (WIFEXITED(status)) return "exited with status " + std::to_string(WEXITSTATUS(status));
  if (WIFSIGNALED(status)) return std::string("was ended by the signal ") + strsignal(WTERMSIG(status));
  return "ended";
}

}  // namespace

WorkerProcess::WorkerProcess(const std::string& program) : program_(program) {
  int ends[2];
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0)
    throw WorkerFailed("no socket for the mesher: " + std::string(std::strerror(errno)));
  const int error = spawn(program, ends[1], pid_);
  close(ends[1]);
  if (error != 0) {
    close(ends[0]);
    throw WorkerFailed("the mesher " + program + " cannot be started: " + std::strerror(error));
  }
  socket_ = ends[0];
  fcntl(socket_, F_SETFL, fcntl(socket_, F_GETFL) | O_NONBLOCK);
}

WorkerProcess::~WorkerProcess() {
  if (socket_ >= 0) close(socket_);
  if (pid_ <= 0) return;
  kill(pid_, SIGKILL);
  while (waitpid(pid_, nullptr, 0) < 0 && errno == EINTR) {
  }
}

MeshReply WorkerProcess::ask(const MeshRequest& request, Clock::time_point until) {
  const std::vector<std::byte> body = to_bytes(request);
  FrameHeader header = {request_mark, body.size()};
  send_all(&header, sizeof header, until);
  send_all(body.data(), body.size(), until);
  receive_all(&header, sizeof header, until);
  if (header.mark != reply_mark || header.size > largest_body)
    throw BadFrame("it does not begin with the reply's mark");
  std::vector<std::byte> reply;
  while (reply.size() < header.size) {  // grows with what arrives: a false size costs nothing
    const std::size_t had = reply.size();
    reply.resize(std::min<std::size_t>(static_cast<std::size_t>(header.size), had + (std::size_t{1} << 20)));
    receive_all(reply.data() + had, reply.size() - had, until);
  }
  return reply_from(reply);
}

void WorkerProcess::send_all(const void* from, std::size_t size, Clock::time_point until) {
  const auto* at = static_cast<const char*>(from);
  while (size > 0) {
    const ssize_t put = send(socket_, at, size, MSG_NOSIGNAL);
    if (put < 0 && errno == EAGAIN) {
      wait_for(POLLOUT, until);
    } else if (put < 0 && errno != EINTR) {
      fail_because_it_ended();
    } else if (put > 0) {
      at += put;
      size -= static_cast<std::size_t>(put);
    }
  }
}

void WorkerProcess::receive_all(void* to, std::size_t size, Clock::time_point until) {
  auto* at = static_cast<char*>(to);
  while (size > 0) {
    const ssize_t got = recv(socket_, at, size, 0);
    if (got < 0 && errno == EAGAIN) {
      wait_for(POLLIN, until);
    } else if (got == 0 || (got < 0 && errno != EINTR)) {
      fail_because_it_ended();
    } else if (got > 0) {
      at += got;
      size -= static_cast<std::size_t>(got);
    }
  }
}

void WorkerProcess::wait_for(short event, Clock::time_point until) {
  pollfd watched = {socket_, event, 0};
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now()).count() + 1;
  if (left <= 0) throw WorkerTooSlow("the mesher " + program_ + " did not answer in the time allowed");
  poll(&watched, 1, static_cast<int>(std::min<long long>(left, 60'000)));
}

void WorkerProcess::fail_because_it_ended() {
  throw WorkerFailed("the mesher " + program_ + " " + end_of_process());
}

std::string WorkerProcess::end_of_process() {
  const auto until = Clock::now() + grace;
  for (;;) {
    int status = 0;
    const pid_t ended = waitpid(pid_, &status, WNOHANG);
    if (ended < 0 && errno == EINTR) continue;
    if (ended != 0) {
      pid_ = -1;
      return ended < 0 ? "ended" : words_for(status);
    }
    if (Clock::now() > until) return "closed its output";
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
}

}  // namespace coilpull::detail
