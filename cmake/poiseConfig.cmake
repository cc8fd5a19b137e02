# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# find_package(poise): the target poise::poise, with which a program reads jobs and proves them.
include("${CMAKE_CURRENT_LIST_DIR}/libraries_to_prove.cmake")
include("${CMAKE_CURRENT_LIST_DIR}/poiseTargets.cmake")
