// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/aim_words.h"

#include <fmt/format.h>

#include "papers/tape.h"
#include "papers/told.h"

namespace sightfall::papers {

std::string aim_point_words(const Job& job, const CameraPart& part, const need::AimPoint& point,
                            const site::Scene& in_leaf) {
  if (point.set_down)
    return fmt::format("{}: {}", point.name,
                       tape_words(tape_points(job.project()), in_leaf, geom::plan(point.at), job.project()));
  if (point.name == need::kPlumb)
    return fmt::format("{}; the picture's top looks towards {}", point.name, angle(part.aim.heading));
  return point.name;
}

}  // namespace sightfall::papers
