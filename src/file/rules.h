// SPDX-License-Identifier: GPL-3.0-or-later
// What must hold between the fields of an object and between objects, beyond the bounds of each field: outlines that do
// not cross themselves, names that something carries, settings that a sheet and a mount allow. An object in which the
// reader found a mistake already is not compared with others.
#pragma once
#include "camera/sheet.h"
#include "file/report.h"
#include "need/project.h"

namespace sightfall::file {

/// Points nearer to each other than this are one point given twice, m.
inline constexpr double kLeastStep = 1e-3;

void check_site(const site::Site& site, Report& report);                         // rules_site.cpp
void check_sheet(const camera::Sheet& sheet, const Spot& spot, Report& report);  // rules_sheet.cpp
void check_cameras(const need::Project& project, Report& report);                // rules_cameras.cpp
void check_needs(const need::Project& project, Report& report);                  // rules_needs.cpp
void check_settings(const need::Settings& settings, Report& report);             // rules_settings.cpp

}  // namespace sightfall::file
