# SPDX-License-Identifier: GPL-3.0-or-later
# SuiteSparse of Debian 12 brings neither a CMake package nor a .pc file.
find_path(Cholmod_INCLUDE_DIR cholmod.h PATH_SUFFIXES suitesparse)
find_library(Cholmod_LIBRARY cholmod)
include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(Cholmod REQUIRED_VARS Cholmod_LIBRARY Cholmod_INCLUDE_DIR)
if(Cholmod_FOUND AND NOT TARGET Cholmod::Cholmod)
  add_library(Cholmod::Cholmod UNKNOWN IMPORTED)
  set_target_properties(Cholmod::Cholmod PROPERTIES
    IMPORTED_LOCATION ${Cholmod_LIBRARY} INTERFACE_INCLUDE_DIRECTORIES ${Cholmod_INCLUDE_DIR})
endif()
