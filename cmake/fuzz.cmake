# Copyright 2026 The Poise founders. Licence: Apache-2.0.

# tests/fuzz/<target>.cpp, each with its seeds and among them the inputs that once went wrong, becomes fuzz_<target>. Clang with
# sanitizers steers it by what the code does; elsewhere the seeds and changes of them are run. `./check --fuzz` runs each long.

# add_fuzz_target(<name> RUNS <changes of seeds in a test run> ROOMS <what it looks at> [SOURCES <files>...]
#                 [SEEDS <folders beside its own>...])
function(add_fuzz_target name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "RUNS" "ROOMS;SOURCES;SEEDS")
  set(folder "${PROJECT_SOURCE_DIR}/tests/fuzz")
  add_executable(fuzz_${name} "${folder}/${name}.cpp" ${arg_SOURCES})
  target_include_directories(fuzz_${name} PRIVATE "${PROJECT_SOURCE_DIR}/tests")
  list(TRANSFORM arg_ROOMS PREPEND "poise_")
  target_link_libraries(fuzz_${name} PRIVATE ${arg_ROOMS})
  target_compile_definitions(fuzz_${name} PRIVATE "POISE_SOURCE_DIR=\"${PROJECT_SOURCE_DIR}\"")
  build_quickly(fuzz_${name})
  if(POISE_SANITIZE)  # a tenth of the speed
    math(EXPR arg_RUNS "${arg_RUNS} / 10")
  endif()
  set(options "-runs=${arg_RUNS}")
  if(POISE_SANITIZE AND CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    target_link_options(fuzz_${name} PRIVATE -fsanitize=fuzzer)
    set(grown "${PROJECT_BINARY_DIR}/fuzz/${name}")  # what reached something new is kept here for the next run
    file(MAKE_DIRECTORY "${grown}")
    list(APPEND options -seed=20261127 -timeout=60 -max_len=32768 "-artifact_prefix=${PROJECT_BINARY_DIR}/fuzz_${name}_"
      "-dict=${folder}/words.txt" -print_final_stats=1 "${grown}")
  else()
    target_sources(fuzz_${name} PRIVATE "${folder}/from_seeds.cpp")
  endif()
  add_test(NAME fuzz.${name} COMMAND fuzz_${name} ${options} "${folder}/seeds/${name}" ${arg_SEEDS}
    WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}")
  set_tests_properties(fuzz.${name} PROPERTIES LABELS quick TIMEOUT 400)
endfunction()

function(add_fuzz_targets)
  set(root "${PROJECT_SOURCE_DIR}")
  set(law "${root}/tests/fuzz/any_law.cpp")
  add_fuzz_target(job_file RUNS 1000 ROOMS job SEEDS "${root}/jobs" "${root}/tests/drawings" "${root}/tests/rules/jobs")
  add_fuzz_target(readings RUNS 8000 ROOMS diagnose SOURCES "${root}/tests/diagnose/readings_stand.cpp")
  add_fuzz_target(parts_list RUNS 3000 ROOMS job SOURCES "${law}" SEEDS "${root}/stock")
  add_fuzz_target(datasheet RUNS 10000 ROOMS job SOURCES "${law}")
  add_fuzz_target(requests RUNS 3000 ROOMS serve)
endfunction()
