# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# The check of type names must see one name given twice, and leave alone what is not twice.
# Run: cmake -D SCRATCH=<folder to overwrite> -P check_the_name_check.cmake

function(expect outcome second)
  file(REMOVE_RECURSE ${SCRATCH})
  file(WRITE ${SCRATCH}/solver/first.hpp "namespace coilpull {\n\nstruct Twice {\n  int a;\n};\n\n}  // namespace coilpull\n")
  file(WRITE ${SCRATCH}/apps/second.cpp "${second}")
  execute_process(COMMAND ${CMAKE_COMMAND} -D ROOT=${SCRATCH} -P ${CMAKE_CURRENT_LIST_DIR}/check_type_names.cmake
    RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(outcome STREQUAL passes AND NOT code EQUAL 0)
    message(FATAL_ERROR "these may stand side by side:\n${second}but the check says:\n${out}")
  endif()
  string(FIND "${out}" "coilpull::Twice is the name of a type in" named)
  if(outcome STREQUAL fails AND (code EQUAL 0 OR named EQUAL -1))
    message(FATAL_ERROR "this may not stand beside the first:\n${second}but the check says:\n${out}")
  endif()
endfunction()

expect(fails  "namespace coilpull {\nenum class Twice { a, b }\\;\n}  // namespace coilpull\n")
expect(fails  "namespace coilpull {\nclass Twice\n    : public Other {\n}\\;\n}  // namespace coilpull\n")
expect(fails  "namespace coilpull {\nnamespace {\nint a\\;\n}  // namespace\nstruct Twice : Other {\n}\\;\n}  // namespace coilpull\n")
expect(passes "namespace coilpull {\nstruct Twice\\;\n}  // namespace coilpull\n")
expect(passes "namespace coilpull::detail {\nstruct Twice {\n}\\;\n}  // namespace coilpull::detail\n")
expect(passes "namespace coilpull {\nnamespace {\nstruct Twice {\n}\\;\n}  // namespace\n}  // namespace coilpull\n")
file(REMOVE_RECURSE ${SCRATCH})
