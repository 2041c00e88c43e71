# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# Starts the program and compares exit code and words, on the paths where nothing is solved.
# Run: cmake -D PROGRAM=<coilpull> -D VERSION=<x.y.z> -D DEVICE=<good device file> -D SCRATCH=<folder to overwrite>
#      -P program_test.cmake

file(REMOVE_RECURSE ${SCRATCH})
file(WRITE ${SCRATCH}/bad.toml "title = \"half a device\n")
file(WRITE ${SCRATCH}/a_file "in the way")

# expect(<exit code> <stdout|stderr> <pattern that stream must match> <arguments>...)
function(expect code stream pattern)
  execute_process(COMMAND ${PROGRAM} ${ARGN} WORKING_DIRECTORY ${SCRATCH}
    RESULT_VARIABLE seen OUTPUT_VARIABLE stdout ERROR_VARIABLE stderr)
  set(stdout "${stdout}" PARENT_SCOPE)
  list(JOIN ARGN " " arguments)
  if(NOT seen EQUAL code)
    message(FATAL_ERROR "coilpull ${arguments}: exit code ${seen}, expected ${code}\n${stdout}${stderr}")
  endif()
  if(NOT ${stream} MATCHES "${pattern}")
    message(FATAL_ERROR "coilpull ${arguments}: expected ${pattern} on ${stream}, got\n${${stream}}")
  endif()
endfunction()

string(REPLACE "." "\\." version "${VERSION}")
expect(0 stdout "^coilpull ${version}\n"         --version)
expect(0 stdout "coilpull table pusher\\.toml"   --help)
expect(0 stdout "Start here:"                    )
expect(2 stderr "coilpul?l?|verb|argument"       no_such_verb)
expect(2 stderr "FILE"                           table)
expect(2 stderr "threads"                        table a_file --threads 0)
expect(2 stderr "missing\\.toml"                 table missing.toml)
expect(2 stderr "missing\\.toml"                 check missing.toml)
expect(2 stderr "bad\\.toml:1"                   table bad.toml)
expect(2 stderr "bad\\.toml:1"                   field bad.toml)
expect(2 stderr "no such circuit"                field ${DEVICE} --current nobody=1)
expect(4 stderr "cannot write folder a_file/out: Not a directory" table ${DEVICE} -o a_file/out)
expect(0 stdout "rows"                           check ${DEVICE})
expect(2 stderr "missing\\.toml"                 check --canonical missing.toml)
expect(0 stdout "^title = .*\nB_z_T = 0\n$"      check --canonical ${DEVICE})
file(WRITE ${SCRATCH}/canonical.toml "${stdout}")
set(canonical "${stdout}")
expect(0 stdout "rows"                           check canonical.toml)
expect(0 stdout "^title"                         check canonical.toml --canonical)
if(NOT stdout STREQUAL canonical)
  message(FATAL_ERROR "the canonical text of a canonical text is another:\n${stdout}")
endif()
file(REMOVE ${SCRATCH}/canonical.toml)

# What was refused has left nothing behind.
file(GLOB left RELATIVE ${SCRATCH} ${SCRATCH}/*)
if(NOT left STREQUAL "a_file;bad.toml")
  message(FATAL_ERROR "refused runs left files: ${left}")
endif()
file(REMOVE_RECURSE ${SCRATCH})
