# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# What holds for all of our own code and for nothing else: language, warnings, sanitizers, where includes start.

if(NOT CMAKE_BUILD_TYPE)
  set(CMAKE_BUILD_TYPE Release CACHE STRING "Release, Debug" FORCE)
endif()

find_program(CCACHE_PROGRAM ccache)
if(CCACHE_PROGRAM)
  set(CMAKE_CXX_COMPILER_LAUNCHER "${CCACHE_PROGRAM}")
endif()

set(CMAKE_CXX_EXTENSIONS OFF)

add_library(poise_house INTERFACE)
target_compile_features(poise_house INTERFACE cxx_std_20)
target_include_directories(poise_house INTERFACE "${PROJECT_SOURCE_DIR}/src")
target_compile_options(poise_house INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wold-style-cast -Wconversion -Wno-sign-conversion -Wnon-virtual-dtor -Werror
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>  # GCC 12 sees overlaps in std::string that are not there (its bug 105329)
  $<$<CXX_COMPILER_ID:Clang>:-Wreserved-identifier>
  -Wno-missing-field-initializers  # tables name the fields they set; the others keep their stated defaults
  -fno-math-errno -fno-trapping-math)  # nobody asks errno or the trap flags: roots and comparisons need no detour

if(CMAKE_INTERPROCEDURAL_OPTIMIZATION AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(poise_house INTERFACE -ffat-lto-objects)  # tests link the plain half of each object
endif()

if(POISE_SANITIZE)
  target_compile_options(poise_house INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
    -fno-sanitize=null,alignment,object-size,vptr)  # half of the build's time; address sees what they would on this machine
  target_link_options(poise_house INTERFACE -fsanitize=address,undefined)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    target_compile_options(poise_house INTERFACE -fsanitize=fuzzer-no-link)  # what tests/fuzz steers by
    target_link_options(poise_house INTERFACE -fsanitize=fuzzer-no-link)
  else()
    target_compile_options(poise_house INTERFACE
      -Wno-maybe-uninitialized)  # with sanitizers GCC 12 sees it where it is not, in its own headers too
  endif()
endif()
