# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# Every library Poise links, all of them Debian 12 packages; docs/dependencies.md says what each is for.

include("${CMAKE_CURRENT_LIST_DIR}/libraries_to_prove.cmake")
find_package(CLI11 REQUIRED)

# Beast and Asio are headers only; threads come with the C library.
find_path(BOOST_BEAST_INCLUDE_DIR boost/beast.hpp REQUIRED)
add_library(boost::beast INTERFACE IMPORTED)
set_target_properties(boost::beast PROPERTIES
  INTERFACE_INCLUDE_DIRECTORIES "${BOOST_BEAST_INCLUDE_DIR}")
if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")  # Asio 1.74 knows coroutines of Clang only as they were before C++20
  set_target_properties(boost::beast PROPERTIES
    INTERFACE_COMPILE_DEFINITIONS "BOOST_ASIO_HAS_CO_AWAIT=1;BOOST_ASIO_HAS_STD_COROUTINE=1")
endif()

find_path(NLOPT_INCLUDE_DIR nlopt.h REQUIRED)
find_library(NLOPT_LIBRARY nlopt REQUIRED)
add_library(nlopt::nlopt UNKNOWN IMPORTED)
set_target_properties(nlopt::nlopt PROPERTIES
  IMPORTED_LOCATION "${NLOPT_LIBRARY}"
  INTERFACE_INCLUDE_DIRECTORIES "${NLOPT_INCLUDE_DIR}")

find_path(XLSXWRITER_INCLUDE_DIR xlsxwriter.h REQUIRED)
find_library(XLSXWRITER_LIBRARY xlsxwriter REQUIRED)
add_library(xlsxwriter::xlsxwriter UNKNOWN IMPORTED)
set_target_properties(xlsxwriter::xlsxwriter PROPERTIES
  IMPORTED_LOCATION "${XLSXWRITER_LIBRARY}"
  INTERFACE_INCLUDE_DIRECTORIES "${XLSXWRITER_INCLUDE_DIR}")

find_package(SQLite3 3.40 REQUIRED)
find_package(Eigen3 3.4 REQUIRED NO_MODULE)

find_package(OpenSSL 3 REQUIRED COMPONENTS Crypto)

if(POISE_TESTS)
  find_package(GTest REQUIRED)
  find_package(rapidcheck REQUIRED)
endif()

if(POISE_BENCHMARKS)
  find_package(benchmark REQUIRED)
endif()
