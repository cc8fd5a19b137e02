# Copyright 2026 The Poise founders. Licence: Apache-2.0.
include(GoogleTest)

# The limit only stops a run that hangs on a loaded or sanitized machine; no test measures time.
set(POISE_TEST_LIMIT 180)

find_program(LLD ld.lld)
if(CMAKE_INTERPROCEDURAL_OPTIMIZATION AND NOT LLD)
  message(FATAL_ERROR "The tests of a release are linked by lld: run ./check once, or install the package lld")
endif()

# Tests are compiled for a short build: they call the code that is measured and watched, they are not it. Their own sources
# are hardly optimised, the libraries they all include are compiled once, and the rooms' objects, which hold both forms
# in a release, are linked without another optimisation of the whole.
function(build_quickly target)
  set_target_properties(${target} PROPERTIES INTERPROCEDURAL_OPTIMIZATION OFF)
  target_compile_options(${target} PRIVATE $<IF:$<BOOL:${POISE_SANITIZE}>,-O0,-O1>)
  quiet_gcc(${target} -Wno-array-bounds -Wno-stringop-overflow)  # at -O1 seen in sums of strings where they are not (its bug 105651)
  # GNU ld takes members of an archive twice where its index names what only the other form defines; lld reads the members.
  if(CMAKE_INTERPROCEDURAL_OPTIMIZATION)
    target_link_options(${target} PRIVATE -fno-lto -fuse-ld=lld)
  elseif(LLD)
    target_link_options(${target} PRIVATE -fuse-ld=lld)
  endif()
endfunction()

# The first test's precompiled headers serve all: their flags are the same.
function(share_precompiled_headers target)
  get_property(first GLOBAL PROPERTY POISE_FIRST_TEST)
  if(first)
    target_precompile_headers(${target} REUSE_FROM ${first})
  else()
    set_property(GLOBAL PROPERTY POISE_FIRST_TEST ${target})
    target_precompile_headers(${target} PRIVATE <algorithm> <functional> <map> <memory> <optional> <span> <string>
      <variant> <vector> <fmt/format.h> <gmock/gmock.h> <gtest/gtest.h> <rapidcheck.h> <rapidcheck/gtest.h>)
  endif()
endfunction()

# One executable test_<room> from tests/<room>/*.cpp. POISE_SOURCE_DIR is the repository, POISE_PROGRAM the program.
function(add_test_folder folder)
  cmake_path(GET folder FILENAME room)
  file(GLOB sources CONFIGURE_DEPENDS "${folder}/*.cpp")
  if(NOT sources OR (room STREQUAL "made_up" AND POISE_SANITIZE))  # jobs by the hundred are for an optimised build
    return()
  endif()
  if(room STREQUAL "made_up")
    list(APPEND sources "${PROJECT_SOURCE_DIR}/tests/judge/schema.cpp")  # the check of a verdict's JSON
  endif()
  get_property(rooms GLOBAL PROPERTY POISE_ROOMS)
  list(REMOVE_ITEM rooms poise_cli)  # commands are tested by running the program
  add_executable(test_${room} ${sources})
  target_include_directories(test_${room} PRIVATE "${PROJECT_SOURCE_DIR}/tests")
  target_link_libraries(test_${room} PRIVATE test_support ${rooms} rapidcheck rapidcheck_gtest GTest::gmock GTest::gtest_main)
  build_quickly(test_${room})
  share_precompiled_headers(test_${room})
  target_compile_definitions(test_${room} PRIVATE "POISE_SOURCE_DIR=\"${PROJECT_SOURCE_DIR}\"")
  if(TARGET poise)
    target_compile_definitions(test_${room} PRIVATE "POISE_PROGRAM=\"$<TARGET_FILE:poise>\"")
    if(room STREQUAL "cli")
      add_dependencies(test_${room} poise)
    endif()
  endif()
  set(cases)
  if(room STREQUAL "draw")
    set(cases " max_success=25")  # each lays out a whole circuit
    if(POISE_SANITIZE)
      set(cases " max_success=6")
    endif()
  endif()
  if(room STREQUAL "compose")
    set(cases " max_success=40")  # each reads and writes a whole job many times
    if(POISE_SANITIZE)
      set(cases " max_success=8")
    endif()
  endif()
  gtest_discover_tests(test_${room}
    TEST_PREFIX "${room}."
    WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}"
    DISCOVERY_TIMEOUT 120
    PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT} ENVIRONMENT "RC_PARAMS=seed=20261125${cases}")
endfunction()

# tests/house holds the rules of the house itself; they are scripts, since they read the sources instead of running them.
function(add_house_tests)
  find_package(Python3 REQUIRED COMPONENTS Interpreter)
  file(GLOB scripts CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/house/*_test.py")
  foreach(script IN LISTS scripts)
    cmake_path(GET script STEM name)
    set(program)
    if(name STREQUAL "linked_libraries_test")
      if(NOT TARGET poise)
        continue()
      endif()
      set(program "$<TARGET_FILE:poise>")
    endif()
    add_test(NAME house.${name} COMMAND Python3::Interpreter -B "${script}" "${PROJECT_SOURCE_DIR}" ${program})
    set_tests_properties(house.${name} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  endforeach()
endfunction()

# Python that sees Debian's packages for it; where one is missing the tests that need it fail and say so.
find_program(POISE_DEBIAN_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH)
find_program(POISE_DEBIAN_PYTHON python3 REQUIRED)

# tests/draw/*_test.py read the sheets back that tests/draw/program prints.
function(add_read_back_tests)
  add_executable(sample_sheet "${PROJECT_SOURCE_DIR}/tests/draw/program/sample_sheet.cpp")
  target_include_directories(sample_sheet PRIVATE "${PROJECT_SOURCE_DIR}/tests")
  target_link_libraries(sample_sheet PRIVATE poise_draw)
  build_quickly(sample_sheet)
  file(GLOB scripts CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/draw/*_test.py")
  foreach(script IN LISTS scripts)
    cmake_path(GET script STEM name)
    add_test(NAME draw.${name} COMMAND "${POISE_DEBIAN_PYTHON}" -B "${script}" "$<TARGET_FILE:sample_sheet>")
    set_tests_properties(draw.${name} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  endforeach()
endfunction()

# tests/papers/*_test.py read the lists back that tests/papers/program/lists writes of jobs.
function(add_lists_read_back)
  add_executable(lists_of_job "${PROJECT_SOURCE_DIR}/tests/papers/program/lists.cpp")
  target_link_libraries(lists_of_job PRIVATE test_support)
  build_quickly(lists_of_job)
  file(GLOB scripts CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/papers/lists_*_test.py")
  foreach(script IN LISTS scripts)
    cmake_path(GET script STEM name)
    add_test(NAME papers.${name}
      COMMAND "${POISE_DEBIAN_PYTHON}" -B "${script}" "$<TARGET_FILE:lists_of_job>" "${PROJECT_SOURCE_DIR}")
    set_tests_properties(papers.${name} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  endforeach()
endfunction()

# tests/reference/schema_*_test.py hold the schema of jobs against the reader, whose complaints tests/reference/program prints.
function(add_schema_tests)
  add_executable(jobs_read "${PROJECT_SOURCE_DIR}/tests/reference/program/jobs_read.cpp")
  target_link_libraries(jobs_read PRIVATE poise_job nlohmann_json::nlohmann_json)
  build_quickly(jobs_read)
  file(GLOB scripts CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/reference/schema_*_test.py")
  foreach(script IN LISTS scripts)
    cmake_path(GET script STEM name)
    add_test(NAME reference.${name}
      COMMAND "${POISE_DEBIAN_PYTHON}" -B "${script}" "$<TARGET_FILE:jobs_read>" "${PROJECT_SOURCE_DIR}")
    set_tests_properties(reference.${name} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  endforeach()
endfunction()

# tests/papers/pdf lets the program make whole packages of papers and reads them back by other programs.
function(add_papers_on_paper)
  if(NOT TARGET poise OR POISE_SANITIZE OR NOT CMAKE_BUILD_TYPE STREQUAL "Release")
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/papers/pdf")
  foreach(job IN ITEMS drilling_stand drilling_stand_broken axle_box_lift axle_box_lift_broken sixty_parts
      us_units_on_letter signs long_names long_names_without_blanks cut_short_without_gauges waived_with_revision)
    add_test(NAME papers.pdf_of.${job} COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/of_job.py" "$<TARGET_FILE:poise>" ${job})
    set_tests_properties(papers.pdf_of.${job} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  endforeach()
  add_test(NAME papers.pdf_settings_sheet
    COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/settings_sheet.py" "$<TARGET_FILE:poise>")
  set_tests_properties(papers.pdf_settings_sheet PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  foreach(group IN ITEMS Alone Ends Folders NoPdf SameBytes)
    add_test(NAME papers.pdf_command.${group}
      COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/command.py" "$<TARGET_FILE:poise>" ${group})
    set_tests_properties(papers.pdf_command.${group} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT})
  endforeach()
endfunction()

# tests/independent solves circuits a second time by SciPy; most of the time is SciPy's, so once is enough.
function(add_independent_tests)
  if(NOT TARGET poise OR POISE_SANITIZE)
    return()
  endif()
  file(GLOB jobs CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/independent/*.toml")
  foreach(job IN LISTS jobs)
    cmake_path(GET job STEM circuit)
    add_test(NAME independent.${circuit}
      COMMAND "${POISE_DEBIAN_PYTHON}" -B "${PROJECT_SOURCE_DIR}/tests/independent/compare.py" "$<TARGET_FILE:poise>" ${circuit})
    # The matrices are small: threads of the linear algebra would only take the other tests' cores.
    set_tests_properties(independent.${circuit} PROPERTIES LABELS quick TIMEOUT ${POISE_TEST_LIMIT}
      ENVIRONMENT "OPENBLAS_NUM_THREADS=1;OMP_NUM_THREADS=1")
  endforeach()
endfunction()

# tests/answers lets the program find values and compose circuits for whole jobs: hundreds of runs, for an optimised build.
function(add_answers)
  if(NOT TARGET poise OR POISE_SANITIZE)
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/answers")
  foreach(wish IN ITEMS single-lift frame-lift drilling-fixture milling-clamp bush-press)
    add_test(NAME answers.proposed.${wish} COMMAND Python3::Interpreter -B "${folder}/proposed.py" "$<TARGET_FILE:poise>" ${wish})
    set_tests_properties(answers.proposed.${wish} PROPERTIES LABELS quick TIMEOUT 400)
  endforeach()
  foreach(case IN ITEMS drilling-stand axle-box-lift)
    add_test(NAME answers.found.${case} COMMAND Python3::Interpreter -B "${folder}/found.py" "$<TARGET_FILE:poise>" ${case})
    set_tests_properties(answers.found.${case} PROPERTIES LABELS quick TIMEOUT 400)
  endforeach()
endfunction()

# tests/draw/elk lays the drawings' graphs out by a general-purpose library of Node.js and compares. Where Node.js or the
# library is missing the comparison is skipped and says so.
function(add_layout_comparison)
  if(POISE_SANITIZE)  # the same drawings, and most of the time is the library's
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/draw/elk")
  add_executable(drawing_graphs "${folder}/drawing_graphs.cpp")
  target_include_directories(drawing_graphs PRIVATE "${PROJECT_SOURCE_DIR}/tests")
  target_link_libraries(drawing_graphs PRIVATE test_support nlohmann_json::nlohmann_json)
  build_quickly(drawing_graphs)
  add_test(NAME layout.counter_of_crossings_and_bends COMMAND sh "${folder}/with_node.sh" --test "${folder}/count_test.mjs")
  add_test(NAME layout.compared_with_elkjs
    COMMAND sh "${folder}/with_node.sh" "${folder}/compare.mjs" "$<TARGET_FILE:drawing_graphs>")
  # The library lays every job out a dozen times: more of its time than a test of ours may take.
  set_tests_properties(layout.counter_of_crossings_and_bends layout.compared_with_elkjs PROPERTIES LABELS layout
    TIMEOUT 900 SKIP_RETURN_CODE 77)
endfunction()

# tests/web tells whole stories to the workbench in a real browser: a file for each. Where the browser, Node.js or what
# drives them is missing they are skipped and say so.
function(add_browser_tests)
  if(NOT TARGET poise OR POISE_SANITIZE OR NOT CMAKE_BUILD_TYPE STREQUAL "Release")
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/web")
  file(GLOB stories CONFIGURE_DEPENDS "${folder}/*_test.mjs")
  foreach(story IN LISTS stories)
    cmake_path(GET story STEM name)
    string(REGEX REPLACE "_test$" "" name "${name}")
    add_test(NAME browser.${name} COMMAND sh "${folder}/with_browser.sh" --test "${story}")
    set_tests_properties(browser.${name} PROPERTIES LABELS browser TIMEOUT 600 SKIP_RETURN_CODE 77
      ENVIRONMENT "POISE_PROGRAM=$<TARGET_FILE:poise>")
  endforeach()
endfunction()

# tests/cluster runs a study on a real Slurm that it starts on this host. Where Slurm is missing or does not start the test is
# skipped and says so.
function(add_cluster_tests)
  if(NOT TARGET poise OR POISE_SANITIZE OR NOT CMAKE_BUILD_TYPE STREQUAL "Release")
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/cluster")
  foreach(name IN ITEMS scripts study_on_slurm)
    add_test(NAME cluster.${name}
      COMMAND sh "${folder}/alone.sh" "${POISE_DEBIAN_PYTHON}" -B "${folder}/${name}.py" "$<TARGET_FILE:poise>")
    set_tests_properties(cluster.${name} PROPERTIES LABELS cluster TIMEOUT 600 SKIP_RETURN_CODE 77)
  endforeach()
endfunction()

# tests/trouble lets everything go wrong around the program: clients, files, disks, streams, clocks, sudden ends. Not in builds
# with checks, whose memory is their own and which get in the way of what is loaded first.
function(add_trouble)
  if(NOT TARGET poise OR POISE_SANITIZE)
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/trouble")
  foreach(name IN ITEMS jumping_clock sudden_death)
    add_library(${name} MODULE "${folder}/program/${name}.c")
    set_target_properties(${name} PROPERTIES INTERPROCEDURAL_OPTIMIZATION OFF)
    target_link_libraries(${name} PRIVATE ${CMAKE_DL_LIBS})
  endforeach()
  foreach(name IN ITEMS load door changed)
    add_test(NAME cli.trouble.${name} COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/${name}.py" "$<TARGET_FILE:poise>")
  endforeach()
  foreach(group IN ITEMS Inputs Outputs Streams Settings)
    add_test(NAME cli.trouble.${group} COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/commands.py" "$<TARGET_FILE:poise>" ${group})
  endforeach()
  add_test(NAME cli.trouble.killed
    COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/killed.py" "$<TARGET_FILE:poise>" "$<TARGET_FILE:sudden_death>")
  set(all load door changed Inputs Outputs Streams Settings killed)
  list(TRANSFORM all PREPEND cli.trouble.)
  set_tests_properties(${all} PROPERTIES LABELS quick TIMEOUT 600)  # hundreds of commands each
  set_tests_properties(cli.trouble.changed cli.trouble.Settings PROPERTIES
    ENVIRONMENT "POISE_JUMPING_CLOCK=$<TARGET_FILE:jumping_clock>")
endfunction()

# tests/install installs Poise, packs it and uses it as a stranger would.
function(add_install_tests)
  if(NOT TARGET poise OR POISE_SANITIZE OR NOT CMAKE_BUILD_TYPE STREQUAL "Release")
    return()
  endif()
  set(folder "${PROJECT_SOURCE_DIR}/tests/install")
  add_test(NAME install.manual COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/manual_test.py" "$<TARGET_FILE:poise>")
  foreach(name IN ITEMS installed package from_cpp)
    add_test(NAME install.${name} COMMAND "${POISE_DEBIAN_PYTHON}" -B "${folder}/${name}_test.py" "${PROJECT_BINARY_DIR}")
  endforeach()
  # Packing and compiling take long on a machine that has other things to do.
  set_tests_properties(install.manual install.installed install.package install.from_cpp PROPERTIES LABELS quick
    TIMEOUT 600)
endfunction()

function(add_test_folders root)
  # tests/support is shared by the other folders; tests/fuzz is an executable for each of its targets.
  file(GLOB support CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/${root}/support/*.cpp")
  get_property(rooms GLOBAL PROPERTY POISE_ROOMS)
  list(REMOVE_ITEM rooms poise_cli)  # commands are tested by running the program
  add_library(test_support STATIC ${support})
  target_include_directories(test_support PUBLIC "${PROJECT_SOURCE_DIR}/${root}")
  target_link_libraries(test_support PUBLIC ${rooms})
  target_compile_definitions(test_support PRIVATE "POISE_SOURCE_DIR=\"${PROJECT_SOURCE_DIR}\"")
  build_quickly(test_support)
  file(GLOB entries LIST_DIRECTORIES true CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/${root}/*")
  foreach(entry IN LISTS entries)
    if(IS_DIRECTORY "${entry}" AND NOT entry MATCHES "/(support|fuzz)$")
      add_test_folder("${entry}")
    endif()
  endforeach()
  add_fuzz_targets()
  add_house_tests()
  add_read_back_tests()
  add_lists_read_back()
  add_schema_tests()
  add_papers_on_paper()
  add_independent_tests()
  add_answers()
  add_layout_comparison()
  add_browser_tests()
  add_cluster_tests()
  add_trouble()
  add_install_tests()
endfunction()
