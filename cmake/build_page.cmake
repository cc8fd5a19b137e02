# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# Run by add_page at build time: npm run build in WEB, its files into BUILT.

if(NOT EXISTS "${WEB}/node_modules/.package-lock.json")
  message(FATAL_ERROR "The libraries of the page are missing in ${WEB}/node_modules. Run ./check or ./demo once: they install them.")
endif()
find_program(NPM npm)
if(NOT NPM)
  message(FATAL_ERROR "npm is missing. Run ./check or ./demo once: they install it.")
endif()
execute_process(
  COMMAND "${NPM}" run --silent build -- --outDir "${BUILT}" --emptyOutDir --logLevel warn
  WORKING_DIRECTORY "${WEB}"
  COMMAND_ERROR_IS_FATAL ANY)
