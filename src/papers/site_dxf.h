// SPDX-License-Identifier: GPL-3.0-or-later
// The builder's plan for CAD.
//   Checked  site_dxf_test.cpp
#pragma once
#include "import/dxf.h"
#include "papers/job.h"

namespace sightfall::papers {

/// Outlines, veils, boundary, mounts, cameras with their headings and numbers, feeds, ways and cables, lamps, the names
/// of what stands there, points to aim by, routes, walk tests; a layer each, and one for leaders from names that had to
/// be moved off others to what they name.
import::DxfDrawing site_dxf(const Job& job);

}  // namespace sightfall::papers
