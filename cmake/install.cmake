# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# What cmake --install puts where, in two components: "program", for people who design circuits, and "library", for those
# who prove jobs from C++ (find_package(poise)).

set(share "${CMAKE_INSTALL_DATADIR}/poise")
set(library_documents "${CMAKE_INSTALL_DATADIR}/doc/libpoise-dev")
set(manual "${PROJECT_BINARY_DIR}/manual")

if(TARGET poise)
  install(TARGETS poise RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}" COMPONENT program)

  # The program writes its manual and its completion itself.
  add_custom_command(TARGET poise POST_BUILD
    COMMAND poise manual --write "${manual}"
    COMMAND gzip -9nf "${manual}/poise.1"
    COMMAND "${CMAKE_COMMAND}" "-DWEB=${PROJECT_SOURCE_DIR}/web" "-DOUTPUT=${manual}/copyright"
      -P "${PROJECT_SOURCE_DIR}/cmake/copyright.cmake"
    BYPRODUCTS "${manual}/copyright" "${manual}/poise.1.gz" "${manual}/poise" "${manual}/_poise" "${manual}/poise.fish"
    VERBATIM)
  install(FILES "${manual}/poise.1.gz" DESTINATION "${CMAKE_INSTALL_MANDIR}/man1" COMPONENT program)
  install(FILES "${manual}/poise" DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" COMPONENT program)
  install(FILES "${manual}/poise.fish" DESTINATION "${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d" COMPONENT program)
  # Debian's zsh looks into one folder for packages and into another for what is installed by hand.
  install(CODE "
    set(folder site-functions)
    if(CMAKE_INSTALL_PREFIX MATCHES \"/usr$\")
      set(folder vendor-completions)
    endif()
    file(INSTALL \"${manual}/_poise\" DESTINATION \"\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DATADIR}/zsh/\${folder}\")"
    COMPONENT program)

  # Example jobs name the lists by paths such as ../../stock, so the two stay side by side.
  install(DIRECTORY jobs stock DESTINATION "${share}" COMPONENT program
    FILES_MATCHING PATTERN "*.toml" PATTERN "*.csv" PATTERN "*.md" PATTERN "mine.toml" EXCLUDE)
  file(GLOB schemas CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/docs/schema/*.json")
  install(FILES ${schemas} DESTINATION "${share}/schema" COMPONENT program)
  install(DIRECTORY tools/slurm DESTINATION "${share}" USE_SOURCE_PERMISSIONS COMPONENT program)
  install(FILES README.md CHANGELOG.md "${manual}/copyright" DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT program)
  install(DIRECTORY docs/ DESTINATION "${CMAKE_INSTALL_DOCDIR}/docs" COMPONENT program PATTERN "schema" EXCLUDE)
endif()

# The rooms that prove a job, with everything they see.
set(rooms quantity units oil parts circuit trace rules job solve judge prove)
add_library(poise_library INTERFACE)
target_link_libraries(poise_library INTERFACE poise_prove)
set_target_properties(poise_library PROPERTIES EXPORT_NAME poise)
foreach(room IN LISTS rooms)
  set_target_properties(poise_${room} PROPERTIES EXPORT_NAME ${room})
  install(TARGETS poise_${room} EXPORT poise
    ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT library
    INCLUDES DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}" "${CMAKE_INSTALL_INCLUDEDIR}/poise")
  install(DIRECTORY "src/${room}" DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/poise" COMPONENT library
    FILES_MATCHING PATTERN "*.hpp")
endforeach()
install(TARGETS poise_library EXPORT poise)

if(CMAKE_INTERPROCEDURAL_OPTIMIZATION AND CMAKE_STRIP)
  # Objects of a release hold two forms; the compiler's own one is no use to another compiler.
  install(CODE "
    file(GLOB libraries \"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_LIBDIR}/libpoise_*.a\")
    execute_process(COMMAND \"${CMAKE_STRIP}\" --strip-debug -R .gnu.lto_* -R .gnu.debuglto_* -N __gnu_lto_slim
      -N __gnu_lto_v1 \${libraries} COMMAND_ERROR_IS_FATAL ANY)"
    COMPONENT library)
endif()

include(CMakePackageConfigHelpers)
set(config "${CMAKE_INSTALL_LIBDIR}/cmake/poise")
write_basic_package_version_file("${PROJECT_BINARY_DIR}/poiseConfigVersion.cmake" COMPATIBILITY SameMinorVersion)
install(EXPORT poise NAMESPACE poise:: FILE poiseTargets.cmake DESTINATION "${config}" COMPONENT library)
install(FILES cmake/poiseConfig.cmake cmake/libraries_to_prove.cmake "${PROJECT_BINARY_DIR}/poiseConfigVersion.cmake"
  DESTINATION "${config}" COMPONENT library)
install(DIRECTORY examples DESTINATION "${library_documents}" COMPONENT library)
install(FILES "${manual}/copyright" DESTINATION "${library_documents}" COMPONENT library)
