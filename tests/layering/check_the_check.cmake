# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# The include check must see each kind of wrong include, and nothing wrong in a clean tree.
# Run: cmake -D SCRATCH=<folder to overwrite> -P check_the_check.cmake

function(expect outcome file include words)
  file(REMOVE_RECURSE ${SCRATCH})
  file(WRITE ${SCRATCH}/materials/clean.hpp "#include \"materials/constants.hpp\"\n#include <vector>\n")
  file(WRITE ${SCRATCH}/${file} "// first line\n#include ${include}\n")
  execute_process(COMMAND ${CMAKE_COMMAND} -D ROOT=${SCRATCH} -P ${CMAKE_CURRENT_LIST_DIR}/check_includes.cmake
    RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(outcome STREQUAL passes AND NOT code EQUAL 0)
    message(FATAL_ERROR "${file} may include ${include}, but the check says:\n${out}")
  endif()
  string(FIND "${out}" "${words}" said)
  string(FIND "${out}" "${file}: #include ${include}" named)
  if(outcome STREQUAL fails AND (code EQUAL 0 OR said EQUAL -1 OR named EQUAL -1))
    message(FATAL_ERROR "${file} may not include ${include}; expected \"${words}\", but the check says:\n${out}")
  endif()
endfunction()

expect(passes solver/sweep/a.cpp    "\"solver/fem/problem.hpp\""        "")
expect(passes solver/motion/a.cpp   "\"solver/sweep/force_table.hpp\""  "")
expect(passes apps/a.cpp            "\"solver/sweep/sweep.hpp\""        "")
expect(passes meshing/detail/a.cpp  "<gmsh.h>"                          "")
expect(passes solver/field/elimination_plan.cpp "<suitesparse/cholmod.h>" "")
expect(fails  materials/a.hpp       "\"meshing/mesh.hpp\""              "allowed here, by path in the repository: materials/")
expect(fails  meshing/a.cpp         "\"materials/constants.hpp\""       "allowed here, by path in the repository: meshing/")
expect(fails  solver/fem/a.cpp      "\"solver/device/device.hpp\""      "solver/closed_form/ solver/fem/")
expect(fails  solver/heat/a.cpp     "\"solver/motion/mover_motion.hpp\"" "solver/sweep/ solver/heat/")
expect(fails  solver/sweep/a.hpp    "\"apps/output/csv_table.hpp\""     "allowed here")
expect(fails  solver/sweep/a.cpp    "\"sweep.hpp\""                     "allowed here")
expect(fails  meshing/a.cpp         "<gmsh.h>"                          "only in files that match ^meshing/detail/")
expect(fails  solver/field/a.cpp    "<cholmod.h>"                       "only in files that match ^solver/field/elimination_plan")
expect(fails  solver/field/a.cpp    "<vtkNew.h>"                        "only in files that match ^(apps/output/vtu_module")
expect(fails  apps/output/a.cpp     "<cairo-svg.h>"                     "only in files that match ^apps/output/canvas")
expect(fails  apps/commands/a.cpp   "<toml++/toml.h>"                   "only in files that match ^(materials/detail/material_file")
file(REMOVE_RECURSE ${SCRATCH})
