# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# The TOML files of a room are built into it, so that the program carries them; an edit of one builds it again. Run as a
# script (cmake -P) this file writes the source that holds them.

if(CMAKE_SCRIPT_MODE_FILE)
  file(GLOB_RECURSE files RELATIVE "${FOLDER}" "${FOLDER}/*.toml")
  set(source "#include \"${ROOM}/built_in.hpp\"\n\nnamespace poise::${ROOM} {\n\n")
  string(APPEND source "std::string_view built_in(std::string_view file) {\n")
  foreach(file IN LISTS files)
    file(READ "${FOLDER}/${file}" text)
    string(APPEND source "  if (file == \"${file}\") return R\"toml(${text})toml\";\n")
  endforeach()
  string(APPEND source "  return {};\n}\n\n}  // namespace poise::${ROOM}\n")
  file(WRITE "${OUTPUT}" "${source}")
  return()
endif()

set(POISE_TEXTS_SCRIPT "${CMAKE_CURRENT_LIST_FILE}")

# add_texts(<room>): built_in() of src/<room>/built_in.hpp finds src/<room>/**/*.toml by name.
function(add_texts room)
  set(folder "${PROJECT_SOURCE_DIR}/src/${room}")
  file(GLOB_RECURSE files CONFIGURE_DEPENDS "${folder}/*.toml")
  set(output "${PROJECT_BINARY_DIR}/${room}/built_in.cpp")
  add_custom_command(OUTPUT "${output}"
    COMMAND "${CMAKE_COMMAND}" "-DROOM=${room}" "-DFOLDER=${folder}" "-DOUTPUT=${output}" -P "${POISE_TEXTS_SCRIPT}"
    DEPENDS ${files} "${POISE_TEXTS_SCRIPT}"
    COMMENT "Texts of ${room}" VERBATIM)
  target_sources(poise_${room} PRIVATE "${output}")
endfunction()
