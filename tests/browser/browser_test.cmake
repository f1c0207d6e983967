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
set(demo "")
if(PROGRAM)
  execute_process(COMMAND "${PROGRAM}" plan "${SESSION}" --quiet --html "${FOLDER}/pages/demo.html"
                          COMMAND_ERROR_IS_FATAL ANY)
  set(demo --demo "${FOLDER}/pages/demo.html")
endif()
execute_process(
  COMMAND
    "${NODE}" "${SCRIPT}" ${demo} --chromium "${CHROMIUM}" --modules "${NODE_MODULES}"
    --long "${FOLDER}/pages/hostile.html" "${FOLDER}/pages/fits.html" "${FOLDER}/pages/short.html"
  RESULT_VARIABLE status)
if(NOT status EQUAL 0)
  message(FATAL_ERROR "the page fails in the browser")
endif()
if(NOT PROGRAM)
  return()
endif()

# By the press; and what the page says was done is what the program then reads.
execute_process(
  COMMAND "${NODE}" "${PRESS}" --chromium "${CHROMIUM}" --modules "${NODE_MODULES}"
          "${FOLDER}/pages/demo.html" "${FOLDER}/pages" RESULT_VARIABLE status)
if(NOT status EQUAL 0)
  message(FATAL_ERROR "the page fails by the press")
endif()
set(list "${FOLDER}/pages/done.txt")
set(journal "${FOLDER}/pages/journal.toml")
file(REMOVE "${journal}")
execute_process(COMMAND "${PROGRAM}" log import "${list}" --session "${SESSION}" --journal
                        "${journal}" COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND "${PROGRAM}" late "${SESSION}" --at 12:40 --done "@${list}" --quiet --json
                        "${FOLDER}/pages/late.json" COMMAND_ERROR_IS_FATAL ANY)
