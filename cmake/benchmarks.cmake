# Copyright 2026 The Poise founders. Licence: Apache-2.0.

# Each bench/<name>.cpp becomes build/<preset>/bench/bench_<name>.
function(add_benchmark_folder folder)
  file(GLOB sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/${folder}/*.cpp")
  get_property(rooms GLOBAL PROPERTY POISE_ROOMS)
  foreach(source IN LISTS sources)
    cmake_path(GET source STEM name)
    add_executable(bench_${name} ${source})
    target_link_libraries(bench_${name} PRIVATE ${rooms} benchmark::benchmark_main)
    target_compile_definitions(bench_${name} PRIVATE "POISE_SOURCE_DIR=\"${PROJECT_SOURCE_DIR}\"")
    set_target_properties(bench_${name} PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}/bench")
  endforeach()
endfunction()
