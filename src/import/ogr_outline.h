// SPDX-License-Identifier: GPL-3.0-or-later
// A polygon of GDAL's as an outline of ours.
//   Library  GDAL (OGR), only in ogr_outline.cpp
//   Checked  through what reads polygons: footprints_test.cpp, outline_parts_test.cpp
#pragma once
#include "geom/polygon.h"

namespace sightfall::import {

/// `polygon` is an OGRGeometryH, a wkbPolygon with an outer ring. A ring's last point is left out where it repeats the
/// first.
geom::Outline outline_of(void* polygon);

}  // namespace sightfall::import
