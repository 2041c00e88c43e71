# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# The same bytes on any number of threads, and again from what stands beside the table alone.
# Run: cmake -D PROGRAM=<coilpull> -D SCRATCH=<folder to overwrite> -P run_again_test.cmake
file(REMOVE_RECURSE ${SCRATCH})
file(COPY ${CMAKE_CURRENT_LIST_DIR}/small.toml DESTINATION ${SCRATCH})
file(READ ${SCRATCH}/small.toml small)
string(APPEND small "\n[core.yoke]\nmaterial = \"yoke steel.toml\"\n"
  "tube = { inner_radius_mm = 20, outer_radius_mm = 24, from_mm = -5, to_mm = 5 }\n")
file(WRITE ${SCRATCH}/device.toml "${small}")
file(WRITE ${SCRATCH}/yoke\ steel.toml
  "name = \"=1+1\"\nsource = \"invented for this test\"\nh_A_per_m = [0, 100, 1000, 20000]\nb_T = [0, 0.5, 1.4, 1.9]\n")

function(table file folder threads)
  execute_process(COMMAND ${PROGRAM} table ${file} -o ${folder} --threads ${threads} --no-pictures --quiet --slopes
    WORKING_DIRECTORY ${SCRATCH} RESULT_VARIABLE code ERROR_VARIABLE stderr)
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "${file} with ${threads} threads: exit code ${code}\n${stderr}")
  endif()
endfunction()

function(require_same a b)
  file(SHA256 ${SCRATCH}/${a} first)
  file(SHA256 ${SCRATCH}/${b} second)
  if(NOT first STREQUAL second)
    message(FATAL_ERROR "${a} and ${b} differ")
  endif()
endfunction()

table(device.toml one 1)
foreach(threads 2 3)
  table(device.toml with_${threads} ${threads})
  require_same(one/force_table.csv with_${threads}/force_table.csv)
endforeach()

# From the description: hashes of everything that was read, versions, and the device in full.
file(READ ${SCRATCH}/one/force_table.csv-metadata.json description)
foreach(claim "table_sha256;one/force_table.csv" "input;sha256;device.toml" "input;materials;0;sha256;yoke steel.toml")
  list(POP_BACK claim file)
  string(JSON stated GET "${description}" notes 0 ${claim})
  file(SHA256 "${SCRATCH}/${file}" seen)
  if(NOT stated STREQUAL seen)
    message(FATAL_ERROR "the hash of ${file} is ${seen}, stated is ${stated}")
  endif()
endforeach()
foreach(library Eigen Gmsh CHOLMOD)
  string(JSON version GET "${description}" notes 0 libraries ${library})
  if(NOT version MATCHES "^[0-9]+\\.[0-9]+")
    message(FATAL_ERROR "version of ${library}: ${version}")
  endif()
endforeach()
string(JSON again GET "${description}" notes 0 input canonical_text)
file(WRITE ${SCRATCH}/again.toml "${again}")
table(again.toml again 2)
require_same(one/force_table.csv again/force_table.csv)

# From the folder alone, moved away: its description names copies of the material files that it holds.
file(MAKE_DIRECTORY ${SCRATCH}/elsewhere/below)
file(RENAME ${SCRATCH}/one ${SCRATCH}/elsewhere/below/moved)
file(RENAME "${SCRATCH}/yoke steel.toml" "${SCRATCH}/kept")
table(elsewhere/below/moved/device.toml moved_again 1)
require_same(elsewhere/below/moved/force_table.csv moved_again/force_table.csv)
require_same(elsewhere/below/moved/device.toml moved_again/device.toml)
file(RENAME "${SCRATCH}/kept" "${SCRATCH}/yoke steel.toml")

# Results beside the device file leave it as the person wrote it, comments and all.
file(SHA256 ${SCRATCH}/device.toml as_written)
table(device.toml . 1)
file(SHA256 ${SCRATCH}/device.toml as_left)
if(NOT as_written STREQUAL as_left)
  message(FATAL_ERROR "the device file was replaced by its own description")
endif()

# A file that changed is seen.
file(APPEND "${SCRATCH}/yoke steel.toml" "# touched\n")
table(device.toml touched 1)
file(READ ${SCRATCH}/touched/force_table.csv-metadata.json later)
string(JSON before GET "${description}" notes 0 input materials 0 sha256)
string(JSON after GET "${later}" notes 0 input materials 0 sha256)
if(before STREQUAL after)
  message(FATAL_ERROR "a changed material file keeps its hash")
endif()
file(REMOVE_RECURSE ${SCRATCH})
