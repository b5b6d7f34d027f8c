// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/result.h"

namespace sightfall {

std::string to_line(const Error& error) {
  std::string line;
  for (const std::string* part : {&error.where.file, &error.where.object, &error.where.field})
    if (!part->empty()) line += *part + ": ";
  return line + error.text;
}

}  // namespace sightfall
