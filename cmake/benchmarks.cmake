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
  add_custom_target(benches)
  foreach(source IN LISTS sources)
    cmake_path(GET source STEM name)
    # Compiled with everything, so that it stays true; linked, as a whole and slowly, only when it is asked for.
    add_library(bench_${name}_source OBJECT ${source})
    target_link_libraries(bench_${name}_source PRIVATE ${rooms} test_support bench_by_hand benchmark::benchmark_main)
    target_compile_definitions(bench_${name}_source PRIVATE "POISE_SOURCE_DIR=\"${PROJECT_SOURCE_DIR}\"")
    add_executable(bench_${name} EXCLUDE_FROM_ALL $<TARGET_OBJECTS:bench_${name}_source>)
    target_link_libraries(bench_${name} PRIVATE ${rooms} test_support bench_by_hand benchmark::benchmark_main)
    if(TARGET poise)
      target_compile_definitions(bench_${name}_source PRIVATE "POISE_PROGRAM=\"$<TARGET_FILE:poise>\"")
      add_dependencies(bench_${name} poise)
    endif()
    add_dependencies(benches bench_${name})
    set_target_properties(bench_${name} PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}/bench")
  endforeach()
endfunction()
