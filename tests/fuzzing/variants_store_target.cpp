// SPDX-License-Identifier: GPL-3.0-or-later
// A store of variants that somebody else made: refused, or its results are taken over into a new one.
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "apps/device_file/bad_device.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/variants/variant_store.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

/// In memory where there is such a folder: SQLite waits for the disk at each step.
class StoreFile {
public:
  StoreFile()
      : file_((fs::is_directory("/dev/shm") ? fs::path("/dev/shm") : fs::temp_directory_path()) /
              ("coilpull_fuzzed_" + std::to_string(getpid()) + ".db")) {}
  ~StoreFile() { remove(); }
  StoreFile(const StoreFile&) = delete;
  StoreFile& operator=(const StoreFile&) = delete;

  const fs::path& with(std::string_view bytes) const {
    remove();
    std::ofstream(file_, std::ios::binary) << bytes;
    return file_;
  }

private:
  void remove() const {
    std::error_code none;
    for (const char* ending : {"", "-journal", "-wal", "-shm"}) fs::remove(file_.string() + ending, none);
  }
  fs::path file_;
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  static const StoreFile file;
  const fs::path& store = file.with(text_of(bytes, size));
  VariantStore all(":memory:");
  std::size_t taken = 0;
  try {
    taken = all.merge_from(store);
  } catch (const BadDevice& refused) {
    if (std::string(refused.what()).rfind(store.string(), 0) != 0)
      found(std::string("a refusal without its place: ") + refused.what());
  } catch (const CannotWrite&) {
  }
  if (all.size() != taken) found("a refused store has left results");
  return 0;
}
