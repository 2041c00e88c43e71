# SPDX-License-Identifier: GPL-3.0-or-later
# Turns files of the machine that builds into bytes of the program.
# Run: cmake -D OUT=<file.cpp> -D FILES="name=path;name=path" -P embed.cmake
set(text "#include \"apps/report/embedded.hpp\"\n\nnamespace coilpull {\nnamespace {\n")
set(views "")
foreach(pair ${FILES})
  string(REGEX REPLACE "=.*" "" name "${pair}")
  string(REGEX REPLACE "^[^=]*=" "" path "${pair}")
  file(READ "${path}" hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," hex "${hex}")
  string(REGEX REPLACE "((0x..,)(0x..,)(0x..,)(0x..,)(0x..,)(0x..,)(0x..,)(0x..,))" "\\1\n" hex "${hex}")
  string(APPEND text "const unsigned char ${name}_bytes[] = {\n${hex}0};\n")
  string(APPEND views "const std::string_view ${name}(reinterpret_cast<const char*>(${name}_bytes), sizeof ${name}_bytes - 1);\n")
endforeach()
file(WRITE "${OUT}" "${text}}  // namespace\n${views}}  // namespace coilpull\n")
