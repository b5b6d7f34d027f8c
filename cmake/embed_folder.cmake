# SPDX-License-Identifier: GPL-3.0-or-later
# Writes MADE.h and MADE.cpp, which hold the bytes of every file below FOLDER. The assembler reads the files, since a
# compiler takes minutes and gigabytes for as many bytes as numbers.
file(WRITE ${MADE}.h "// Made by cmake/embed_folder.cmake; do not edit.
#pragma once
#include <vector>
#include \"base/embedded_file.h\"
namespace sightfall::embedded {
std::vector<File> ${SYMBOL}();
}  // namespace sightfall::embedded
")
# Copies: what is compiled into the program later is what was found now.
file(REMOVE_RECURSE ${MADE})
file(MAKE_DIRECTORY ${MADE})
file(COPY ${FOLDER}/ DESTINATION ${MADE})
file(GLOB_RECURSE FILES RELATIVE ${MADE} ${MADE}/*)
set(BYTES "")
set(NAMES "")
set(ENTRIES "")
set(NUMBER 0)
foreach(FILE IN LISTS FILES)
  set(NAME sightfall_${SYMBOL}_${NUMBER})
  string(APPEND BYTES "__asm__(\".section .rodata\\n${NAME}:\\n.incbin \\\"${MADE}/${FILE}\\\"\\n${NAME}_end:\\n"
                      ".byte 0\\n.previous\\n\");\n")
  string(APPEND NAMES "extern const char ${NAME}[], ${NAME}_end[];\n")
  string(APPEND ENTRIES "      {\"${FILE}\", {${NAME}, static_cast<std::size_t>(${NAME}_end - ${NAME})}},\n")
  math(EXPR NUMBER "${NUMBER} + 1")
endforeach()
file(WRITE ${MADE}.cpp "// Made by cmake/embed_folder.cmake; do not edit.
// NOLINTBEGIN
#include \"embedded/${SYMBOL}.h\"
${BYTES}
extern \"C\" {
${NAMES}}
namespace sightfall::embedded {
std::vector<File> ${SYMBOL}() {
  return {
${ENTRIES}  };
}
}  // namespace sightfall::embedded
// NOLINTEND
")
