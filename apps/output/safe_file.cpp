// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/safe_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

namespace coilpull {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& kind, const fs::path& path, int error) {
  throw CannotWrite("cannot write " + kind + " " + path.string() + ": " +
                    std::generic_category().message(error) + ".");
}

/// A new file that is closed and removed again unless it was given its final name.
class NewFile {
public:
  explicit NewFile(fs::path path)
      : path_(std::move(path)), file_(::open(path_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666)) {}
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  ~NewFile() {
    if (file_ < 0) return;
    ::close(file_);
    if (!renamed_) ::unlink(path_.c_str());
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

  bool rename_to(const fs::path& final_path) {
    renamed_ = std::rename(path_.c_str(), final_path.c_str()) == 0;
    return renamed_;
  }

private:
  fs::path path_;
  int file_;
  bool renamed_ = false;
};

/// A name that no other running process uses.
fs::path name_beside(const fs::path& file) {
  return file.parent_path() / ("." + file.filename().string() + "." + std::to_string(::getpid()) + ".part");
}

/// Makes the rename itself survive a power cut; a file system that cannot is no reason to fail.
void sync_folder(const fs::path& folder) {
  const int handle = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  ::fsync(handle);
  ::close(handle);
}

}  // namespace

void write_safely(const fs::path& file, const std::string& content) {
  const fs::path beside = name_beside(file);
  ::unlink(beside.c_str());  // left by a killed process that had our number
  NewFile fresh(beside);
  if (!fresh.is_open() || !fresh.write(content) || !fresh.rename_to(file)) fail("file", file, errno);
  sync_folder(file.parent_path());
}

void prepare_folder(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) fail("folder", folder, error.value());
  if (!fs::is_directory(folder, error)) fail("folder", folder, ENOTDIR);
  const NewFile probe(name_beside(folder / "probe"));
  if (!probe.is_open()) fail("folder", folder, errno);
}

}  // namespace coilpull
