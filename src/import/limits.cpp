// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/limits.h"

#include <fmt/format.h>

namespace sightfall::import {

std::optional<Error> distance_error(const std::optional<Length>& distance) {
  if (!distance || (*distance > Length{0} && *distance <= kMostReach)) return std::nullopt;
  return Error{ErrorKind::kRequest,
               fmt::format("a distance of {} m; allowed is above 0, up to {} m", distance->si(), kMostReach.si()),
               {}};
}

}  // namespace sightfall::import
