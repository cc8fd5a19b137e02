# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# Run by install.cmake at build time: the licence of Poise, and the notices of the libraries that are inside the program,
# as they came with them, into OUTPUT. WEB is the folder of the page.

set(text "Poise\nCopyright 2026 The Poise founders\nLicence: Apache License 2.0, on Debian in /usr/share/common-licenses/Apache-2.0

Of the libraries that docs/dependencies.md names, these are inside the program. Their notices:\n")

set(notices)  # Boost's licence asks for none in a program
foreach(package IN ITEMS libtomlplusplus-dev nlohmann-json3-dev libcli11-dev libfmt-dev libeigen3-dev)
  list(APPEND notices "/usr/share/doc/${package}/copyright")
endforeach()
foreach(library IN ITEMS svelte esm-env clsx uplot)
  file(GLOB notice "${WEB}/node_modules/${library}/[Ll][Ii][Cc][Ee][Nn][SsCc][Ee]*")
  list(APPEND notices ${notice})
endforeach()
foreach(notice IN LISTS notices)
  if(EXISTS "${notice}")
    file(READ "${notice}" words)
    cmake_path(GET notice PARENT_PATH folder)
    cmake_path(GET folder FILENAME library)
    string(APPEND text "\n---- ${library} ----\n\n${words}")
  else()
    message(WARNING "The licence of a library is missing: ${notice}")
  endif()
endforeach()
file(WRITE "${OUTPUT}" "${text}")
