# SPDX-License-Identifier: GPL-3.0-or-later
# cmake -DWHOLE=FILE -DSOURCES="a.cpp|b.cpp" -P whole.cmake: the sources one after another as one file, each behind a line
# that names it.
string(REPLACE "|" ";" SOURCES "${SOURCES}")
file(WRITE ${WHOLE} "")
foreach(SOURCE IN LISTS SOURCES)
  file(READ ${SOURCE} TEXT)
  file(APPEND ${WHOLE} "// From ${SOURCE}\n${TEXT}")
endforeach()
