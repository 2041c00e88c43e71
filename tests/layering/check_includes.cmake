# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# Who may include whom. Run: cmake -D ROOT=<top of the tree> -P check_includes.cmake
# Every #include line of the tree is held against the rules below; each offence is printed with its place and
# with what would have been allowed.

# The stages of the solver: a folder sees itself and those before it; the last two do not see each other.
set(solver_order closed_form fem field device measure refine sweep)
set(solver_last heat motion)

# Header pattern; where it may be included; in words.
set(quarantined
  "^gmsh\\.h"                           "^meshing/detail/"
  "^(suitesparse/)?cholmod|Cholmod"     "^solver/field/elimination_plan\\.cpp$"
  "^boost/"                             "^((solver|tests)/closed_form/.*|solver/motion/(stroke|first_crossing)|apps/judgement/smooth_line|apps/calibration/coverage)\\.cpp$"
  "^sqlite3"                            "^(apps/variants/variant_store|tests/apps/hostile_store_test)\\.cpp$"
  "^cairo"                              "^apps/output/canvas\\.cpp$"
  "^(ceres|glog)/"                      "^apps/calibration/ceres_module\\.cpp$"
  "^png\\.h"                            "^apps/output/small_png\\.cpp$"
  "^pybind11"                           "^apps/python/"
  "^archive"                            "^apps/exchange/npz_file\\.cpp$"
  "^nlopt"                              "^apps/(motion/best_switching|variants/improve)\\.cpp$"
  "^(matio|netcdf)\\.h"                 "^apps/exchange/array_module\\.cpp$"
  "^vtk"                                "^(apps/output/vtu_module|tests/apps/vtu_test)\\.cpp$"
  "^toml\\+\\+"                         "^(materials/detail/material_file\\.cpp$|apps/device_file/)")

# Folders that the file may include from, as path prefixes.
function(allowed_for file result)
  if(file MATCHES "^(materials|meshing)/")
    set(allowed "${CMAKE_MATCH_1}/")
  elseif(file MATCHES "^solver/([^/]+)/")
    set(stage ${CMAKE_MATCH_1})
    set(allowed materials/ meshing/)
    list(FIND solver_order ${stage} place)
    if(place EQUAL -1 AND NOT stage IN_LIST solver_last)
      list(JOIN solver_order " | " known)
      message(FATAL_ERROR "${file}: solver/${stage} has no place in the order ${known} | heat, motion")
    endif()
    foreach(earlier IN LISTS solver_order)
      list(APPEND allowed solver/${earlier}/)
      if(earlier STREQUAL stage)
        break()
      endif()
    endforeach()
    if(stage IN_LIST solver_last)
      list(APPEND allowed solver/${stage}/)
    endif()
  elseif(file MATCHES "^apps/")
    set(allowed materials/ meshing/ solver/ apps/)
  else()
    set(allowed materials/ meshing/ solver/ apps/ tests/ benchmarks/)
  endif()
  set(${result} ${allowed} PARENT_SCOPE)
endfunction()

set(offences 0)
macro(offence place line advice)
  message("${place}: ${line}\n  ${advice}")
  math(EXPR offences "${offences} + 1")
endmacro()

file(GLOB_RECURSE files RELATIVE ${ROOT}
  ${ROOT}/materials/*.[ch]pp ${ROOT}/meshing/*.[ch]pp ${ROOT}/solver/*.[ch]pp ${ROOT}/apps/*.[ch]pp
  ${ROOT}/tests/*.[ch]pp ${ROOT}/benchmarks/*.[ch]pp)
if(NOT files)
  message(FATAL_ERROR "no source file below ${ROOT}")
endif()

foreach(file IN LISTS files)
  allowed_for(${file} allowed)
  list(JOIN allowed " " allowed_words)
  file(STRINGS ${ROOT}/${file} lines REGEX "^[ \t]*#[ \t]*include")
  foreach(line IN LISTS lines)
    if(line MATCHES "include[ \t]*\"([^\"]+)\"")
      set(header ${CMAKE_MATCH_1})
      set(permitted FALSE)
      foreach(prefix IN LISTS allowed)
        string(FIND "${header}" "${prefix}" position)
        if(position EQUAL 0)
          set(permitted TRUE)
        endif()
      endforeach()
      if(NOT permitted)
        offence("${file}" "${line}" "allowed here, by path in the repository: ${allowed_words}")
      endif()
    elseif(line MATCHES "include[ \t]*<([^>]+)>")
      set(header ${CMAKE_MATCH_1})
    else()
      continue()
    endif()
    set(rules ${quarantined})
    while(rules)
      list(POP_FRONT rules pattern home)
      if(header MATCHES "${pattern}" AND NOT file MATCHES "${home}")
        offence("${file}" "${line}" "this library is included only in files that match ${home}")
      endif()
    endwhile()
  endforeach()
endforeach()

list(LENGTH files count)
if(offences)
  message(FATAL_ERROR "${offences} wrong includes in ${count} files")
endif()
message("${count} files include only what they may")
