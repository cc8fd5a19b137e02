# Copyright 2026 The Poise founders. Licence: Apache-2.0.

# add_room(<name> [ROOMS <rooms it sees>...] [LIBRARIES <targets>...])
# Makes the library poise_<name> from src/<name>/*.cpp. A room of headers only becomes an interface library, so that
# neither adding a file nor an empty room needs an edit here. src/cli/main.cpp belongs to the program, not to a room.
function(add_room name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "ROOMS;LIBRARIES")
  file(GLOB sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/src/${name}/*.cpp")
  list(FILTER sources EXCLUDE REGEX "/main\\.cpp$")
  list(TRANSFORM arg_ROOMS PREPEND "poise_")
  if(sources)
    add_library(poise_${name} STATIC ${sources})
    set(scope PUBLIC)
  else()
    add_library(poise_${name} INTERFACE)
    set(scope INTERFACE)
  endif()
  # What holds in this house alone, its warnings above all, stays behind when a room is installed.
  target_link_libraries(poise_${name} ${scope} $<BUILD_INTERFACE:poise_house> fmt::fmt ${arg_ROOMS} ${arg_LIBRARIES})
  target_compile_features(poise_${name} ${scope} cxx_std_20)
  set_property(GLOBAL APPEND PROPERTY POISE_ROOMS poise_${name})
endfunction()

# add_program(<name> <room>): build/<preset>/<name> from src/<room>/main.cpp.
function(add_program name room)
  file(GLOB main CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/src/${room}/main.cpp")
  if(NOT main)
    message(STATUS "No src/${room}/main.cpp: the program ${name} is not built")
    return()
  endif()
  add_executable(${name} ${main})
  target_link_libraries(${name} PRIVATE poise_${room})
  set_target_properties(${name} PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}")
  target_compile_definitions(${name} PRIVATE "POISE_VERSION=\"${PROJECT_VERSION}\"" "POISE_DATE=\"${POISE_DATE}\"")
endfunction()
