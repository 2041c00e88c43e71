// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/safe_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

namespace coilpull {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& kind, const fs::path& path, int error) {
  throw CannotWrite("cannot write " + kind + " " + path.string() + ": " +
                    std::generic_category().message(error) + ".");
}

/// A folder that is held by what it is, whatever is done to its name meanwhile.
class Folder {
public:
  explicit Folder(const fs::path& path)
      : handle_(::open(path.empty() ? "." : path.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC)) {}
  Folder(const Folder& above, const fs::path& name)
      : handle_(::openat(above.handle_, name.c_str(), O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC)) {}
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder(Folder&& other) noexcept : handle_(std::exchange(other.handle_, -1)) {}
  Folder& operator=(Folder&& other) noexcept {
    std::swap(handle_, other.handle_);
    return *this;
  }
  ~Folder() {
    if (handle_ >= 0) ::close(handle_);
  }

  bool is_open() const { return handle_ >= 0; }
  int handle() const { return handle_; }

  /// Makes a rename in it survive a power cut; a file system that cannot is no reason to fail.
  void sync() const {
    const int readable = ::openat(handle_, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (readable < 0) return;
    ::fsync(readable);
    ::close(readable);
  }

private:
  int handle_;
};

/// A new file that is closed and removed again unless it was given its final name.
class NewFile {
public:
  NewFile(const Folder& folder, std::string name)
      : folder_(folder),
        name_(std::move(name)),
        file_(::openat(folder.handle(), name_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666)) {}
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  ~NewFile() {
    if (file_ < 0) return;
    ::close(file_);
    if (!renamed_) ::unlinkat(folder_.handle(), name_.c_str(), 0);
  }

  bool is_open() const { return file_ >= 0; }

  bool write(const std::string& content) {
    std::size_t done = 0;
    while (done < content.size()) {
      const ssize_t n = ::write(file_, content.data() + done, content.size() - done);
      if (n < 0 && errno != EINTR) return false;
      if (n > 0) done += static_cast<std::size_t>(n);
    }
    return ::fsync(file_) == 0;
  }

  bool rename_to(const std::string& final_name) {
    renamed_ = ::renameat(folder_.handle(), name_.c_str(), folder_.handle(), final_name.c_str()) == 0;
    return renamed_;
  }

private:
  const Folder& folder_;
  std::string name_;
  int file_;
  bool renamed_ = false;
};

/// A name that no other running process uses.
std::string name_beside(const std::string& file) {
  return "." + file + "." + std::to_string(::getpid()) + ".part";
}

/// The subfolder of that name, made unless it is there. @param path  of it, for messages
Folder subfolder(const Folder& above, const fs::path& name, const fs::path& path) {
  if (::mkdirat(above.handle(), name.c_str(), 0777) != 0 && errno != EEXIST) fail("folder", path, errno);
  Folder below(above, name);
  const int error = errno;
  if (below.is_open()) return below;
  refuse_link(path);
  fail("folder", path, error);
}

}  // namespace

void write_safely(const fs::path& file, const std::string& content) {
  write_below(file.parent_path(), file.filename(), content);
}

void write_below(const fs::path& folder, const fs::path& place, const std::string& content) {
  const fs::path file = folder / place;
  Folder inside(folder);
  if (!inside.is_open()) fail("file", file, errno);
  fs::path path = folder;
  for (const fs::path& name : place.parent_path()) inside = subfolder(inside, name, path /= name);
  const std::string name = file.filename().string(), beside = name_beside(name);
  ::unlinkat(inside.handle(), beside.c_str(), 0);  // left by a killed process that had our number
  NewFile fresh(inside, beside);
  if (!fresh.is_open() || !fresh.write(content) || !fresh.rename_to(name)) fail("file", file, errno);
  inside.sync();
}

void prepare_folder(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) fail("folder", folder, error.value());
  const Folder made(folder);
  if (!made.is_open()) fail("folder", folder, errno);
  const NewFile probe(made, name_beside("probe"));
  if (!probe.is_open()) fail("folder", folder, errno);
}

void refuse_link(const fs::path& inside) {
  std::error_code none;
  if (!fs::is_symlink(fs::symlink_status(inside, none))) return;
  throw CannotWrite(
      "cannot write into " + inside.string() + ": it is a link to " +
      fs::read_symlink(inside, none).string() +
      ".\n  Results stay inside their folder. Take the link away, or name another folder by -o.");
}

}  // namespace coilpull
