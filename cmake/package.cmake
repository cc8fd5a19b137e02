# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# cpack -G DEB in a build folder makes two Debian packages of what install.cmake installs: poise, and libpoise-dev for
# those who prove jobs from C++.

# Only packages have a Debian changelog.
set(changes "${PROJECT_BINARY_DIR}/package/changelog.Debian")
find_program(DATE_PROGRAM date REQUIRED)
execute_process(COMMAND "${CMAKE_COMMAND}" -E env LC_ALL=C "${DATE_PROGRAM}" -u -d "${POISE_DATE}" -R
  OUTPUT_VARIABLE date OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
set(maintainer "The Poise founders <poise@example.invalid>")
file(WRITE "${changes}" "poise (${PROJECT_VERSION}-1) unstable; urgency=medium

  * Poise ${PROJECT_VERSION}; /usr/share/doc/poise/CHANGELOG.md says what is new.

 -- ${maintainer}  ${date}
")
execute_process(COMMAND gzip -9nf "${changes}" COMMAND_ERROR_IS_FATAL ANY)
function(add_debian_changelog component package)
  install(CODE "
    if(\"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}\" MATCHES \"/_CPack_Packages/\")
      file(INSTALL \"${changes}.gz\" DESTINATION \"\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DATADIR}/doc/${package}\")
    endif()"
    COMPONENT ${component})
endfunction()
add_debian_changelog(program poise)
add_debian_changelog(library libpoise-dev)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_VERSION "${PROJECT_VERSION}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_ALL program library)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
  WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "${maintainer}")
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME poise)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS libudunits2-data)  # read while it runs, so no linker tells of it
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "weasyprint, fonts-liberation, bash-completion")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS "chromium | firefox-esr | www-browser")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "design and prove oil-hydraulic circuits
Poise runs the whole cycle of an oil-hydraulic circuit up to 700 bar by the physics, from one file that says what is
given, what is done and what must hold, and answers with a verdict: each requirement held or broken, with its margin,
and the moment and the part that decide it. It draws the schematic, finds settings and sizes, tries tolerances and
faults, goes from readings back to a cause, and writes the papers that are handed over.

Loads held by oil can fall. Local codes and a licensed person decide what may be built and used.")

set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME libpoise-dev)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS
  "libfmt-dev, libsundials-dev (>= 6.4), libsuitesparse-dev, libudunits2-dev, libtomlplusplus-dev, nlohmann-json3-dev")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SUGGESTS "poise, cmake (>= 3.25)")
set(CPACK_DEBIAN_LIBRARY_DESCRIPTION "design and prove oil-hydraulic circuits - C++ development files
Headers, static libraries and a CMake package by which a program of your own reads the jobs of Poise, proves them and
goes on with the verdict.")

include(CPack)
