# Copyright 2026 The Poise founders. Licence: Apache-2.0.

# add_page(<target>): builds the workbench in web/ and builds it into the target, compressed: page_files() of serve/page.hpp.
# The libraries of the page come from ./check or ./demo; without them only what needs the page cannot be built.
function(add_page target)
  set(web "${PROJECT_SOURCE_DIR}/web")
  set(table "${PROJECT_BINARY_DIR}/page.cpp")
  set(built "${PROJECT_BINARY_DIR}/page")
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS "${web}/src/*" "${web}/public/*")
  file(GLOB settings CONFIGURE_DEPENDS "${web}/*.html" "${web}/*.json" "${web}/*.ts" "${web}/*.js" "${web}/*.mjs")
  find_package(Python3 REQUIRED COMPONENTS Interpreter)
  add_custom_command(
    OUTPUT "${table}"
    COMMAND "${CMAKE_COMMAND}" "-DWEB=${web}" "-DBUILT=${built}" -P "${PROJECT_SOURCE_DIR}/cmake/build_page.cmake"
    COMMAND Python3::Interpreter -B "${PROJECT_SOURCE_DIR}/tools/embed_page.py" "${built}" "${table}"
    DEPENDS ${sources} ${settings} "${PROJECT_SOURCE_DIR}/cmake/build_page.cmake" "${PROJECT_SOURCE_DIR}/tools/embed_page.py"
    COMMENT "Building the page of the workbench"
    VERBATIM)
  target_sources(${target} PRIVATE "${table}")
endfunction()
