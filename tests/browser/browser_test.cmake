# Writes the sample pages and opens them in Chromium; see CMakeLists.txt.
set(missing "")
if(NOT CHROMIUM OR NOT EXISTS "${CHROMIUM}")
  list(APPEND missing "chromium (apt-get install -y --no-install-recommends chromium fonts-dejavu-core)")
endif()
if(NOT NODE OR NOT EXISTS "${NODE}")
  list(APPEND missing "node (apt-get install -y --no-install-recommends nodejs npm)")
endif()
if(NOT EXISTS "${NODE_MODULES}/playwright-core" OR NOT EXISTS "${NODE_MODULES}/axe-core")
  list(APPEND missing "node packages (npm ci --prefix tests/browser)")
endif()
if(missing)
  list(JOIN missing ", " missing)
  if(REQUIRED)
    message(FATAL_ERROR "the browser test cannot run without ${missing}")
  endif()
  message("SKIP: the browser test needs ${missing}")
  return()
endif()

file(MAKE_DIRECTORY "${FOLDER}/pages" "${FOLDER}/home")
set(ENV{HOME} "${FOLDER}/home")
execute_process(COMMAND "${MAKE_PAGES}" "${FOLDER}/pages" COMMAND_ERROR_IS_FATAL ANY)
execute_process(
  COMMAND
    "${NODE}" "${SCRIPT}" --chromium "${CHROMIUM}" --modules "${NODE_MODULES}"
    --long "${FOLDER}/pages/hostile.html" "${FOLDER}/pages/fits.html" "${FOLDER}/pages/short.html"
  RESULT_VARIABLE status)
if(NOT status EQUAL 0)
  message(FATAL_ERROR "the page fails in the browser")
endif()
