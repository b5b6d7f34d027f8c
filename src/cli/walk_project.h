// SPDX-License-Identifier: GPL-3.0-or-later
// What `walk` is asked for: a site's camera, route and condition, or a sheet on open ground as a site of its own.
#pragma once
#include "base/result.h"
#include "cli/parse.h"
#include "need/project.h"
#include "walk/marks.h"

namespace sightfall::cli {

/// The site's project, or one of a sheet on open ground.
Checked<need::Project> walk_project(const Given& given);

/// What is walked in it; the project must outlive the request.
Checked<walk::WalkRequest> walk_request(const Given& given, const need::Project& project);

}  // namespace sightfall::cli
