# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# A type has its name to itself. Two of one name and namespace compile, and the linker keeps one destructor for
# both: the program may then end in the wrong one, or not, by the optimisation (ISO C++ [basic.def.odr]).
# Run: cmake -D ROOT=<top of the tree> -P check_type_names.cmake
# Reads the lines that begin at the margin, as clang-format leaves them; unnamed namespaces keep theirs to themselves.

file(GLOB_RECURSE files RELATIVE ${ROOT}
  ${ROOT}/materials/*.[ch]pp ${ROOT}/meshing/*.[ch]pp ${ROOT}/solver/*.[ch]pp ${ROOT}/apps/*.[ch]pp
  ${ROOT}/tests/*.[ch]pp ${ROOT}/benchmarks/*.[ch]pp)
if(NOT files)
  message(FATAL_ERROR "no source file below ${ROOT}")
endif()

set(offences 0)
set(types 0)
foreach(file IN LISTS files)
  set(namespace "")
  set(unnamed FALSE)
  file(STRINGS ${ROOT}/${file} lines REGEX "^(inline )?(namespace|struct|class|enum|enum class|union) |^}  // namespace")
  foreach(line IN LISTS lines)
    if(line MATCHES "^namespace {")
      set(unnamed TRUE)
    elseif(line MATCHES "^}  // namespace *$")
      set(unnamed FALSE)
    elseif(line MATCHES "^namespace ([A-Za-z0-9_:]+) {")
      set(namespace ${CMAKE_MATCH_1})
    elseif(NOT unnamed AND line MATCHES "^(struct|class|enum|enum class|union) ([A-Za-z0-9_]+)( final)?( : .*|  *{.*)?$")
      set(type ${namespace}::${CMAKE_MATCH_2})
      math(EXPR types "${types} + 1")
      if(DEFINED "home_${type}")
        message("${file}: ${type} is the name of a type in ${home_${type}} already\n  Give it another.")
        math(EXPR offences "${offences} + 1")
      endif()
      set("home_${type}" ${file})
    endif()
  endforeach()
endforeach()
if(offences)
  message(FATAL_ERROR "${offences} names of types are given twice")
endif()
message("${types} types have a name each")
