# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# The starting points lie as job files in src/compose/starts and are built into the library; an edit of one of them
# builds it again. Run as a script (cmake -P) this file writes the source that holds their texts.

if(CMAKE_SCRIPT_MODE_FILE)
  file(GLOB jobs "${STARTS}/*.toml")
  set(source "#include \"compose/start_text.hpp\"\n\nnamespace poise::compose {\n\n")
  string(APPEND source "std::string_view start_text(std::string_view file_name) {\n")
  foreach(job IN LISTS jobs)
    cmake_path(GET job FILENAME name)
    file(READ "${job}" text)
    string(APPEND source "  if (file_name == \"${name}\") return R\"toml(${text})toml\";\n")
  endforeach()
  string(APPEND source "  return {};\n}\n\n}  // namespace poise::compose\n")
  file(WRITE "${OUTPUT}" "${source}")
  return()
endif()

set(POISE_STARTS_SCRIPT "${CMAKE_CURRENT_LIST_FILE}")

# add_starts(<room>): the texts of src/<room>/starts/*.toml, found by start_text().
function(add_starts room)
  set(folder "${PROJECT_SOURCE_DIR}/src/${room}/starts")
  file(GLOB jobs CONFIGURE_DEPENDS "${folder}/*.toml")
  set(output "${PROJECT_BINARY_DIR}/${room}/start_text.cpp")
  add_custom_command(OUTPUT "${output}"
    COMMAND "${CMAKE_COMMAND}" "-DSTARTS=${folder}" "-DOUTPUT=${output}" -P "${POISE_STARTS_SCRIPT}"
    DEPENDS ${jobs} "${POISE_STARTS_SCRIPT}"
    COMMENT "Starting points" VERBATIM)
  target_sources(poise_${room} PRIVATE "${output}")
endfunction()
