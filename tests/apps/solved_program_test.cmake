# SPDX-License-Identifier: GPL-3.0-or-later
cmake_minimum_required(VERSION 3.25)

# Starts the program where something is solved, and looks at exit codes, words and files.
# Run: cmake -D PROGRAM=<coilpull> -D SCRATCH=<folder to overwrite> -P solved_program_test.cmake

function(expect code)  # expect(<exit code> <arguments>...): sets stdout and stderr
  execute_process(COMMAND ${ARGN} WORKING_DIRECTORY ${SCRATCH}
    RESULT_VARIABLE seen OUTPUT_VARIABLE stdout ERROR_VARIABLE stderr)
  if(NOT seen EQUAL code)
    list(JOIN ARGN " " arguments)
    message(FATAL_ERROR "${arguments}: exit code ${seen}, expected ${code}\n${stdout}${stderr}")
  endif()
  set(stdout "${stdout}" PARENT_SCOPE)
  set(stderr "${stderr}" PARENT_SCOPE)
endfunction()

function(require text pattern)
  if(NOT text MATCHES "${pattern}")
    message(FATAL_ERROR "expected ${pattern} in\n${text}")
  endif()
endfunction()

function(require_rows file count)  # without the header line
  file(STRINGS ${SCRATCH}/${file} lines)
  list(LENGTH lines seen)
  math(EXPR expected "${count} + 1")
  if(NOT seen EQUAL expected)
    message(FATAL_ERROR "${file} has ${seen} lines, expected ${expected}")
  endif()
endfunction()

file(REMOVE_RECURSE ${SCRATCH})
file(COPY ${CMAKE_CURRENT_LIST_DIR}/small.toml DESTINATION ${SCRATCH})

file(READ ${SCRATCH}/small.toml small)

# The table: default folder, foreign files stay, older results are replaced, the summary reads well.
file(WRITE ${SCRATCH}/small_out/notes.txt "mine")
file(WRITE ${SCRATCH}/small_out/force_table.csv "old")
expect(0 ${PROGRAM} table small.toml)
# The magnet points along the field of a positive current, so that current pulls it into the coil, towards -z.
require("${stdout}" "strongest pull: +-[^\n]* N at 0\\.1 mm, drive = 2 A")
require("${stdout}" "a positive current pulls the plunger towards -z")
require("${stdout}" "small_out/force_table\\.csv")
require("${stderr}" "6 of 6 rows")
require_rows(small_out/force_table.csv 6)
foreach(picture device force flux_linkage_drive field_strongest_pull)
  require("${stdout}" "small_out/${picture}\\.png and \\.svg")
  file(SIZE ${SCRATCH}/small_out/${picture}.png png_size)
  file(SIZE ${SCRATCH}/small_out/${picture}.svg svg_size)
  if(png_size LESS 1000 OR svg_size LESS 1000)
    message(FATAL_ERROR "${picture} is empty")
  endif()
endforeach()
file(READ ${SCRATCH}/small_out/notes.txt notes)
require("${notes}" "^mine$")
file(READ ${SCRATCH}/small_out/force_table.csv-metadata.json metadata)
string(JSON hash GET "${metadata}" notes 0 input sha256)
file(SHA256 ${SCRATCH}/small.toml expected_hash)
require("${hash}" "^${expected_hash}$")

# Without any font the pictures are drawn all the same, and every SVG is XML.
file(WRITE ${SCRATCH}/no_fonts.conf "<?xml version=\"1.0\"?>\n<fontconfig></fontconfig>\n")
string(REPLACE "title = \"small\"" "title = \"a < b & <script> \\u00e9\"" odd "${small}")
file(WRITE ${SCRATCH}/odd.toml "${odd}")
expect(0 ${CMAKE_COMMAND} -E env FONTCONFIG_FILE=${SCRATCH}/no_fonts.conf ${PROGRAM} table odd.toml --quiet -o odd)
file(GLOB drawings ${SCRATCH}/odd/*.svg)
list(LENGTH drawings count)
if(count LESS 4)
  message(FATAL_ERROR "without fonts only ${drawings} were drawn")
endif()
find_program(XMLLINT xmllint)
foreach(drawing IN LISTS drawings)
  file(READ ${drawing} svg)
  require("${svg}" "<title>a &lt; b &amp; &lt;script&gt;")
  if(XMLLINT)
    expect(0 ${XMLLINT} --noout --nonet ${drawing})
  endif()
endforeach()

# A closed formula beside the finite elements: here without steel it is off by what recoil permeability 1.05 takes.
expect(0 ${PROGRAM} table small.toml --approximation current_sheets -o formula)
file(STRINGS ${SCRATCH}/formula/force_table.csv lines)
list(GET lines 0 header)
require("${header}" ",force_current_sheets_N,B_p01_plunger_T,B_mean_plunger_T,past_knee_plunger,magnets_past_knee,newton_steps,status$")
list(GET lines 1 first)
require("${first}" "^0\\.1,2,-2,0\\.42[78][0-9]*,.*,0\\.4277[0-9]*,0\\.[0-9]+,0\\.[0-9]+,[^,]+,none,[0-9]+,ok$")
foreach(picture force_current_sheets force_current_sheets_ratio)
  require("${stdout}" "formula/${picture}\\.png and \\.svg")
endforeach()

# Quiet is silent.
expect(0 ${PROGRAM} table small.toml --threads 1 --quiet --no-pictures -o quiet)
require("${stdout}${stderr}" "^$")
require_rows(quiet/force_table.csv 6)
file(GLOB pictures ${SCRATCH}/quiet/*.png ${SCRATCH}/quiet/*.svg)
if(pictures)
  message(FATAL_ERROR "--no-pictures drew ${pictures}")
endif()

# One point.
expect(0 ${PROGRAM} field small.toml --displacement-mm 3 --current drive=1.5)
require("${stdout}" "current +drive = 1\\.5 A\nforce +-[0-9.]+ \\+- [0-9.e-]+ N  \\(towards -z\\)")

# Its picture, and its cells where VTK is.
require("${stdout}" "small_out/field\\.png and \\.svg\n +small_out/field\\.vtu|No field\\.vtu: this build has no VTK")
if(NOT EXISTS ${SCRATCH}/small_out/field.svg)
  message(FATAL_ERROR "no field.svg")
endif()
expect(0 ${PROGRAM} field small.toml --displacement-mm 3 --current drive=1.5 --no-files -o nowhere)
if(EXISTS ${SCRATCH}/nowhere)
  message(FATAL_ERROR "--no-files wrote files")
endif()
expect(0 ${PROGRAM} field small.toml --displacement-mm 3 --current drive=1.5 --sensitivities)
require("${stdout}" "What moves the force of -[0-9.]+ N, largest first\n  [-+][0-9.e-]+ N +per (1 %|0\\.1 mm)")
require("${stdout}" "small_out/sensitivities\\.csv")
expect(0 ${PROGRAM} check small.toml -o drawn --half-section)
require("${stdout}" "drawn/device\\.png and \\.svg")

# Moving and fixed parts that meet are refused by place, before anything is solved.
file(READ ${SCRATCH}/small.toml wide)
string(REPLACE "{ radius_mm = 4," "{ radius_mm = 7," wide "${wide}")
file(WRITE ${SCRATCH}/wide.toml "${wide}")
foreach(verb check table field)
  expect(2 ${PROGRAM} ${verb} wide.toml)
  require("${stderr}" "wide\\.toml:[0-9]+: \\[")
endforeach()

file(REMOVE_RECURSE ${SCRATCH})
