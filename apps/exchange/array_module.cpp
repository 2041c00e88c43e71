// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/array_module.hpp"

#include <matio.h>
#include <netcdf.h>

#include <memory>
#include <stdexcept>

namespace coilpull {
namespace {

/// MATLAB stores the first index fast.
std::vector<double> by_columns(const NamedArray& array, std::size_t rows, std::size_t columns) {
  std::vector<double> turned(array.values.size());
  for (std::size_t r = 0; r < rows; ++r)
    for (std::size_t c = 0; c < columns; ++c) turned[c * rows + r] = array.values[r * columns + c];
  return turned;
}

void add(mat_t* mat, matvar_t* made) {
  const std::unique_ptr<matvar_t, void (*)(matvar_t*)> variable(made, Mat_VarFree);
  if (!made || Mat_VarWrite(mat, made, MAT_COMPRESSION_NONE) != 0)
    throw std::runtime_error("a variable cannot be written");
}

void add_words(mat_t* mat, const char* name, const std::string& words) {
  std::size_t size[2] = {1, words.size()};
  std::string copy = words;
  add(mat, Mat_VarCreate(name, MAT_C_CHAR, MAT_T_UTF8, 2, size, copy.data(), 0));
}

std::size_t length_of(const ArrayFile& file, const std::string& dimension) {
  for (const NamedArray& array : file.arrays)
    if (array.name == dimension) return array.values.size();
  throw std::logic_error("no array for dimension " + dimension);
}

void write_mat(const ArrayFile& file, const char* path) {
  const char* const head = "MATLAB 5.0 MAT-file, by coilpull";  // libmatio's own has the date
  const std::unique_ptr<mat_t, int (*)(mat_t*)> mat(Mat_CreateVer(path, head, MAT_FT_MAT5), Mat_Close);
  if (!mat) throw std::runtime_error("the file cannot be made");
  for (const NamedArray& array : file.arrays) {
    const std::size_t rows = length_of(file, array.dimensions[0]);
    std::size_t size[2] = {rows, array.values.size() / rows};
    std::vector<double> values = by_columns(array, size[0], size[1]);
    add(mat.get(), Mat_VarCreate(array.name.c_str(), MAT_C_DOUBLE, MAT_T_DOUBLE, 2, size, values.data(), 0));
  }
  add_words(mat.get(), "title", file.title);
  add_words(mat.get(), "circuit", file.circuit);
  add_words(mat.get(), "notes", file.notes);
}

void require(int code) {
  if (code != NC_NOERR) throw std::runtime_error(nc_strerror(code));
}

void say(int nc, int variable, const char* name, const std::string& words) {
  require(nc_put_att_text(nc, variable, name, words.size(), words.c_str()));
}

void fill_netcdf(int nc, const ArrayFile& file) {
  say(nc, NC_GLOBAL, "Conventions", "CF-1.8");
  say(nc, NC_GLOBAL, "title", file.title);
  say(nc, NC_GLOBAL, "circuit", file.circuit);
  say(nc, NC_GLOBAL, "comment", file.notes);
  for (const NamedArray& array : file.arrays)
    if (array.dimensions == std::vector<std::string>{array.name}) {
      int dimension = 0;
      require(nc_def_dim(nc, array.name.c_str(), array.values.size(), &dimension));
    }
  for (const NamedArray& array : file.arrays) {
    std::vector<int> dimensions;
    for (const std::string& name : array.dimensions)
      require(nc_inq_dimid(nc, name.c_str(), &dimensions.emplace_back()));
    int variable = 0;
    require(nc_def_var(nc, array.name.c_str(), NC_DOUBLE, static_cast<int>(dimensions.size()),
                       dimensions.data(), &variable));
    say(nc, variable, "units", array.unit);
    say(nc, variable, "long_name", array.meaning);
    require(nc_put_var_double(nc, variable, array.values.data()));
  }
}

void write_netcdf(const ArrayFile& file, const char* path) {
  int nc = 0;
  require(nc_create(path, NC_NETCDF4 | NC_CLOBBER, &nc));
  try {
    fill_netcdf(nc, file);
  } catch (...) {
    nc_abort(nc);
    throw;
  }
  require(nc_close(nc));
}

}  // namespace

extern "C" bool coilpull_write_arrays(const ArrayFile& file, ArrayFormat format, const char* path,
                                      std::string& trouble) {
  try {
    (format == ArrayFormat::mat ? write_mat : write_netcdf)(file, path);
    return true;
  } catch (const std::exception& e) {
    trouble = e.what();
    return false;
  }
}

static_assert(std::is_same_v<decltype(&coilpull_write_arrays), WriteArrays>);

}  // namespace coilpull
