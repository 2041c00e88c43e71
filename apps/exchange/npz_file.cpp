// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/npz_file.hpp"

#include <archive.h>
#include <archive_entry.h>

#include <cstdint>
#include <cstring>
#include <memory>
#include <stdexcept>

#include "apps/output/plain_text.hpp"

namespace coilpull {
namespace {

/// Magic, version, length of the header, header as a Python dictionary padded to a multiple of 64, then the
/// values.
std::string npy_bytes(const std::string& type, const std::string& shape, const std::string& values) {
  std::string header = "{'descr': '" + type + "', 'fortran_order': False, 'shape': " + shape + ", }";
  const std::size_t before = 10;
  header.append(63 - (before + header.size()) % 64, ' ');
  header += '\n';
  std::string bytes("\x93NUMPY\x01\x00", 8);
  bytes += static_cast<char>(header.size() & 255U);
  bytes += static_cast<char>(header.size() >> 8U);
  return bytes + header + values;
}

std::string npy_of(const NamedArray& array, const std::vector<std::size_t>& sizes) {
  std::string values(array.values.size() * sizeof(double), '\0');
  std::memcpy(values.data(), array.values.data(), values.size());
  std::string shape = "(";
  for (const std::size_t size : sizes) shape += std::to_string(size) + ",";
  return npy_bytes("<f8", shape + ")", values);
}

/// NumPy keeps letters as 32-bit code points. The words are plain_text(): valid UTF-8.
std::string npy_of(const std::string& words) {
  std::string values;
  std::size_t letters = 0;
  for (std::size_t k = 0; k < words.size(); ++letters) {
    const auto first = static_cast<unsigned char>(words[k]);
    const std::size_t length = first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    std::uint32_t point = length == 1 ? first : first & (0x7FU >> length);
    for (std::size_t more = 1; more < length; ++more)
      point = point << 6U | (static_cast<unsigned char>(words[k + more]) & 0x3FU);
    for (unsigned shift = 0; shift < 32; shift += 8) values += static_cast<char>(point >> shift & 255U);
    k += length;
  }
  if (letters == 0) return npy_of(" ");
  return npy_bytes("<U" + std::to_string(letters), "()", values);
}

la_ssize_t append(archive*, void* bytes, const void* more, size_t length) {
  static_cast<std::string*>(bytes)->append(static_cast<const char*>(more), length);
  return static_cast<la_ssize_t>(length);
}

void require(int code, archive* zip) {
  if (code != ARCHIVE_OK)
    throw std::runtime_error(std::string("the ZIP archive cannot be made: ") + archive_error_string(zip));
}

void add(archive* zip, const std::string& name, const std::string& content) {
  const std::unique_ptr<archive_entry, void (*)(archive_entry*)> entry(archive_entry_new(),
                                                                       archive_entry_free);
  archive_entry_set_pathname(entry.get(), (name + ".npy").c_str());
  archive_entry_set_size(entry.get(), static_cast<la_int64_t>(content.size()));
  archive_entry_set_filetype(entry.get(), AE_IFREG);
  archive_entry_set_perm(entry.get(), 0644);
  archive_entry_set_mtime(entry.get(), 315576000, 0);  // 1 January 1980, the first that ZIP knows
  require(archive_write_header(zip, entry.get()), zip);
  if (archive_write_data(zip, content.data(), content.size()) != static_cast<la_ssize_t>(content.size()))
    require(ARCHIVE_FATAL, zip);
}

}  // namespace

std::string npz_bytes(const SampledTable& table) {
  std::string bytes;
  const std::unique_ptr<archive, int (*)(archive*)> zip(archive_write_new(), archive_write_free);
  require(archive_write_set_format_zip(zip.get()), zip.get());
  require(archive_write_zip_set_compression_deflate(zip.get()), zip.get());
  require(archive_write_set_bytes_in_last_block(zip.get(), 1), zip.get());
  require(archive_write_open(zip.get(), &bytes, nullptr, append, nullptr), zip.get());
  for (const NamedArray& array : arrays_of(table)) {
    const bool grid = array.dimensions.size() == 2;
    add(zip.get(), array.name,
        npy_of(array, grid ? std::vector<std::size_t>{table.displacement.size(), table.current_A.size()}
                           : std::vector<std::size_t>{array.values.size()}));
  }
  std::string notes;
  for (const std::string& note : table.notes) notes += (notes.empty() ? "" : " ") + plain_text(note);
  add(zip.get(), "title", npy_of(plain_text(table.title)));
  add(zip.get(), "circuit", npy_of(plain_text(table.circuit)));
  add(zip.get(), "notes", npy_of(notes));
  require(archive_write_close(zip.get()), zip.get());
  return bytes;
}

}  // namespace coilpull
