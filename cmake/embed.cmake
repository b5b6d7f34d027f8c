# SPDX-License-Identifier: GPL-3.0-or-later
# Writes HEADER with the text of FILE as a string constant named SYMBOL.
file(READ ${FILE} TEXT)
file(WRITE ${HEADER} "// Made from ${SYMBOL}; do not edit.\n#pragma once\n#include <string_view>\nnamespace sightfall::embedded {\n"
                     "inline constexpr std::string_view ${SYMBOL} = R\"sightfall(${TEXT})sightfall\";\n}\n")
