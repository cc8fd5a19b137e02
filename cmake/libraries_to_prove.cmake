# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# What the rooms stand on that prove a job. Installed too: find_package(poise) finds the same libraries by it.

find_package(fmt REQUIRED)
find_package(nlohmann_json REQUIRED)
# KLU arrives through sunlinsolklu. Only serial parts are asked for, so no message-passing library is linked.
find_package(SUNDIALS 6.4 REQUIRED COMPONENTS cvodes nvecserial sunmatrixsparse sunlinsolklu)

if(NOT TARGET udunits2::udunits2)
  find_path(UDUNITS2_INCLUDE_DIR udunits2.h PATH_SUFFIXES udunits2 REQUIRED)
  find_library(UDUNITS2_LIBRARY udunits2 REQUIRED)
  add_library(udunits2::udunits2 UNKNOWN IMPORTED)
  set_target_properties(udunits2::udunits2 PROPERTIES
    IMPORTED_LOCATION "${UDUNITS2_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${UDUNITS2_INCLUDE_DIR}")
endif()

# The package's own target asks for the shared library; the headers alone are enough and leave one thing less to ship.
if(NOT TARGET tomlplusplus::header_only)
  find_path(TOMLPLUSPLUS_INCLUDE_DIR toml++/toml.h REQUIRED)
  add_library(tomlplusplus::header_only INTERFACE IMPORTED)
  set_target_properties(tomlplusplus::header_only PROPERTIES
    INTERFACE_INCLUDE_DIRECTORIES "${TOMLPLUSPLUS_INCLUDE_DIR}"
    INTERFACE_COMPILE_DEFINITIONS "TOML_HEADER_ONLY=1")
endif()
