# SPDX-License-Identifier: GPL-3.0-or-later
# How a room, a test, a benchmark and a fuzz target are built. Every target of ours goes through one of these.

set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)

find_program(SIGHTFALL_CCACHE ccache)
if(SIGHTFALL_CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${SIGHTFALL_CCACHE})
endif()
find_program(SIGHTFALL_MOLD mold)
if(SIGHTFALL_MOLD)
  add_link_options(-fuse-ld=mold)
endif()

add_library(sightfall_options INTERFACE)
# -Wmissing-field-initializers: g++ 12 warns of fields that are left to their class's own initial value.
# In Release, g++ 12 warns without cause of string concatenation (-Wrestrict, GCC bug 105329) and of values in a variant
# (-Wmaybe-uninitialized), and of names in an anonymous namespace of sources that are compiled together.
target_compile_options(sightfall_options INTERFACE -Wall -Wextra -Wpedantic -Wno-missing-field-initializers -Wnon-virtual-dtor
                                                   -Woverloaded-virtual
                                                   "$<$<AND:$<CXX_COMPILER_ID:GNU>,$<CONFIG:Release>>:-Wno-restrict;-Wno-maybe-uninitialized;-Wno-subobject-linkage>")
if(SIGHTFALL_WERROR)
  target_compile_options(sightfall_options INTERFACE -Werror)
endif()
if(SIGHTFALL_SANITIZE)
  set(SIGHTFALL_LEAKS ${PROJECT_SOURCE_DIR}/cmake/leaks.cpp)  # a source of every program
  target_compile_options(sightfall_options INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                                     -fno-omit-frame-pointer -Og)
  target_link_options(sightfall_options INTERFACE -fsanitize=address,undefined)
endif()
if(SIGHTFALL_FUZZ)
  target_compile_options(sightfall_options INTERFACE -fsanitize=fuzzer-no-link,address,undefined
                                                     -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(sightfall_options INTERFACE -fsanitize=address,undefined)
endif()
target_include_directories(sightfall_options INTERFACE ${PROJECT_SOURCE_DIR}/src ${PROJECT_BINARY_DIR}/generated)

if(SIGHTFALL_TIDY)
  find_program(SIGHTFALL_CLANG_TIDY clang-tidy REQUIRED)
  set(CMAKE_CXX_CLANG_TIDY ${SIGHTFALL_CLANG_TIDY} --quiet)
  # In tests: the analyzer spends three quarters of its time inside the framework's macros; a sweep over distances may
  # count in metres; the environment is read before any thread starts; a test's vectors are small.
  set(SIGHTFALL_TEST_CHECKS
      -clang-analyzer-*,-cert-flp30-c,-concurrency-mt-unsafe,-performance-inefficient-vector-operation)
endif()

# sightfall_whole(NAME LIST): in place of the sources in LIST one file that holds them one after another. clang-tidy then
# reads a room's headers once, and its analyzer, which reads one file thoroughly and what that includes hardly at all,
# reads every function of the room and none of the headers' own.
function(sightfall_whole NAME LIST)
  set(WHOLE ${CMAKE_CURRENT_BINARY_DIR}/${NAME}.cpp)
  list(TRANSFORM ${LIST} PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/ OUTPUT_VARIABLE SOURCES)
  string(REPLACE ";" "|" LISTED "${SOURCES}")
  add_custom_command(
    OUTPUT ${WHOLE}
    COMMAND ${CMAKE_COMMAND} -DWHOLE=${WHOLE} -DSOURCES=${LISTED} -P ${PROJECT_SOURCE_DIR}/cmake/whole.cmake
    DEPENDS ${SOURCES} ${PROJECT_SOURCE_DIR}/cmake/whole.cmake
    VERBATIM)
  set(${LIST} ${WHOLE} PARENT_SCOPE)
endfunction()

# sightfall_room(NAME SOURCES a.cpp ... [USES room ...] [LIBRARIES lib ...])
#   USES are other rooms (visible to who uses this one); LIBRARIES are third-party and stay private to the room.
function(sightfall_room NAME)
  cmake_parse_arguments(ROOM "" "" "SOURCES;USES;LIBRARIES;TESTS" ${ARGN})
  if(SIGHTFALL_TIDY)
    sightfall_whole(${NAME} ROOM_SOURCES)
  endif()
  add_library(sightfall_${NAME} STATIC ${ROOM_SOURCES})
  target_link_libraries(sightfall_${NAME} PUBLIC sightfall_options)
  foreach(USED IN LISTS ROOM_USES)
    target_link_libraries(sightfall_${NAME} PUBLIC sightfall_${USED})
  endforeach()
  target_link_libraries(sightfall_${NAME} PRIVATE ${ROOM_LIBRARIES})
  if(SIGHTFALL_TESTS AND ROOM_TESTS)
    sightfall_test(${NAME}_test SOURCES ${ROOM_TESTS} USES ${NAME})
  endif()
endfunction()

# sightfall_test(NAME SOURCES a_test.cpp ... USES room ... [LIBRARIES lib ...] [LABEL fast|slow])
#   Each case becomes a test of its own, NAME:Suite.Case, so that it is counted, skipped and told by itself.
function(sightfall_test NAME)
  cmake_parse_arguments(TEST "" "LABEL" "SOURCES;USES;LIBRARIES" ${ARGN})
  if(NOT TEST_LABEL)
    set(TEST_LABEL fast)
  endif()
  add_executable(${NAME} ${TEST_SOURCES} ${SIGHTFALL_LEAKS})
  # Tests name their helpers alike.
  set_target_properties(${NAME} PROPERTIES UNITY_BUILD OFF)
  foreach(USED IN LISTS TEST_USES)
    target_link_libraries(${NAME} PRIVATE sightfall_${USED})
  endforeach()
  target_link_libraries(${NAME} PRIVATE ${TEST_LIBRARIES} GTest::gtest_main GTest::gmock)
  target_compile_definitions(${NAME} PRIVATE SIGHTFALL_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
  if(SIGHTFALL_TIDY)
    set_target_properties(${NAME} PROPERTIES
      CXX_CLANG_TIDY "${CMAKE_CXX_CLANG_TIDY};--checks=${SIGHTFALL_TEST_CHECKS}")
  endif()
  gtest_discover_tests(${NAME} TEST_PREFIX ${NAME}: NO_PRETTY_TYPES NO_PRETTY_VALUES PROPERTIES LABELS ${TEST_LABEL} DISCOVERY_MODE PRE_TEST)
endfunction()

# sightfall_embed(TARGET SYMBOL FILE): the text of FILE as `inline constexpr std::string_view SYMBOL` in embedded/SYMBOL.h
function(sightfall_embed TARGET SYMBOL FILE)
  set(HEADER ${PROJECT_BINARY_DIR}/generated/embedded/${SYMBOL}.h)
  add_custom_command(
    OUTPUT ${HEADER}
    COMMAND ${CMAKE_COMMAND} -DFILE=${FILE} -DSYMBOL=${SYMBOL} -DHEADER=${HEADER}
            -P ${PROJECT_SOURCE_DIR}/cmake/embed.cmake
    DEPENDS ${FILE} ${PROJECT_SOURCE_DIR}/cmake/embed.cmake
    VERBATIM)
  target_sources(${TARGET} PRIVATE ${HEADER})
endfunction()

# sightfall_embed_folder(TARGET SYMBOL FOLDER): every file below FOLDER, byte for byte, as embedded::SYMBOL() in
# embedded/SYMBOL.h. Which files there are is looked up anew by each build; none is no mistake.
function(sightfall_embed_folder TARGET SYMBOL FOLDER)
  set(MADE ${PROJECT_BINARY_DIR}/generated/embedded/${SYMBOL})
  file(GLOB_RECURSE FILES CONFIGURE_DEPENDS ${FOLDER}/*)
  add_custom_command(
    OUTPUT ${MADE}.h ${MADE}.cpp
    COMMAND ${CMAKE_COMMAND} -DFOLDER=${FOLDER} -DSYMBOL=${SYMBOL} -DMADE=${MADE}
            -P ${PROJECT_SOURCE_DIR}/cmake/embed_folder.cmake
    DEPENDS ${FILES} ${PROJECT_SOURCE_DIR}/cmake/embed_folder.cmake
    VERBATIM)
  target_sources(${TARGET} PRIVATE ${MADE}.h ${MADE}.cpp)
endfunction()
