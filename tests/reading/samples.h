// SPDX-License-Identifier: GPL-3.0-or-later
// One plate and one face at every level of every cause, so that it can be seen what was asked of the readers.
#pragma once
#include <span>
#include <string>

#include "crop.h"
#include "experiment.h"

namespace sightfall::reading {

/// What the camera gives of the subject, at one scale.
using Show = std::function<Grey(const Level& level, uint64_t seed)>;

/// A PNG file: a row a cause, a column a level, with the share of hits of one reader under each.
std::string samples_of(const std::string& heading, std::span<const Series> all, size_t reader, const Show& show);

}  // namespace sightfall::reading
