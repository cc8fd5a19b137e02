# Copyright 2026 The Poise founders. Licence: Apache-2.0.

# Each bench/<name>.cpp becomes build/<preset>/bench/bench_<name>. bench/by_hand holds models without the library, to
# measure it against.
function(add_benchmark_folder folder)
  file(GLOB sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/${folder}/*.cpp")
  get_property(rooms GLOBAL PROPERTY POISE_ROOMS)
  file(GLOB by_hand CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/${folder}/by_hand/*.cpp")
  add_library(bench_by_hand STATIC ${by_hand})
  target_include_directories(bench_by_hand PUBLIC "${PROJECT_SOURCE_DIR}/${folder}")
  target_link_libraries(bench_by_hand PUBLIC poise_house SUNDIALS::cvodes SUNDIALS::nvecserial
                        SUNDIALS::sunmatrixsparse SUNDIALS::sunlinsolklu)
  foreach(source IN LISTS sources)
    cmake_path(GET source STEM name)
    add_executable(bench_${name} ${source})
    target_link_libraries(bench_${name} PRIVATE ${rooms} test_support bench_by_hand benchmark::benchmark_main)
    target_compile_definitions(bench_${name} PRIVATE "POISE_SOURCE_DIR=\"${PROJECT_SOURCE_DIR}\"")
    if(TARGET poise)
      target_compile_definitions(bench_${name} PRIVATE "POISE_PROGRAM=\"$<TARGET_FILE:poise>\"")
      add_dependencies(bench_${name} poise)
    endif()
    set_target_properties(bench_${name} PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}/bench")
  endforeach()
endfunction()
