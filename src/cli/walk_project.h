// SPDX-License-Identifier: GPL-3.0-or-later
// What `walk` is asked for: a site's camera, route and condition, or a sheet on open ground as a site of its own.
#pragma once
#include "base/result.h"
#include "cli/parse.h"
#include "need/project.h"
#include "walk/marks.h"

namespace sightfall::cli {

/// The project to walk in.
struct WalkProject {
  need::Project project;
  bool open_ground = false;
};

Checked<WalkProject> walk_project(const Given& given);

/// The request; the project must outlive it.
Checked<walk::WalkRequest> walk_request(const Given& given, const WalkProject& project);

}  // namespace sightfall::cli
