# SPDX-License-Identifier: GPL-3.0-or-later
# Gmsh's library brings no CMake package. Defines Gmsh::Gmsh, Gmsh_FOUND and Gmsh_VERSION; the header knows the
# version of its interface only (4.8.0 for every 4.8.x).
find_path(Gmsh_INCLUDE_DIR gmsh.h)
find_library(Gmsh_LIBRARY gmsh)
if(Gmsh_INCLUDE_DIR)
  file(STRINGS "${Gmsh_INCLUDE_DIR}/gmsh.h" Gmsh_VERSION REGEX "define GMSH_API_VERSION ")
  string(REGEX REPLACE ".*\"([0-9.]+)\".*" "\\1" Gmsh_VERSION "${Gmsh_VERSION}")
endif()

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(Gmsh REQUIRED_VARS Gmsh_LIBRARY Gmsh_INCLUDE_DIR VERSION_VAR Gmsh_VERSION)
mark_as_advanced(Gmsh_INCLUDE_DIR Gmsh_LIBRARY)

if(Gmsh_FOUND AND NOT TARGET Gmsh::Gmsh)
  add_library(Gmsh::Gmsh UNKNOWN IMPORTED)
  set_target_properties(Gmsh::Gmsh PROPERTIES
    IMPORTED_LOCATION "${Gmsh_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${Gmsh_INCLUDE_DIR}")
endif()
