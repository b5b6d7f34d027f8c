// SPDX-License-Identifier: GPL-3.0-or-later
// What must hold between the fields of an object and between objects, beyond the bounds of each field: outlines that do
// not cross themselves, names that something carries, settings that a sheet and a mount allow. An object in which the
// reader found a mistake already is not compared with others.
#pragma once
#include "camera/sheet.h"
#include "detail/typical.h"
#include "file/report.h"
#include "need/project.h"

namespace sightfall::file {

/// Points nearer to each other than this are one point given twice, m.
inline constexpr double kLeastStep = 1e-3;

/// `[61.5, 20]`, as a document has it.
std::string point_in_words(geom::PlanPoint p);  // rules_site.cpp
/// That no point of a line is the one before it given again; the spot is the line's.
void check_line(const std::vector<geom::PlanPoint>& line, const Spot& spot, Report& report);  // rules_site.cpp
/// Solids, veils, places; and that every material is one of the table.
void check_site(const site::Site& site, const light::Materials& materials, Report& report);  // rules_site.cpp
void check_lamps(const site::Site& site, Report& report);                                    // rules_light.cpp
/// Puts the instant of each date and time where it belongs.
void check_conditions(need::Project& project, Report& report);
/// A rate where one is held, and none where a quality alone is; the stream is of the object at the spot.
void check_stream(const std::optional<camera::Stream>& stream, const Spot& spot, Report& report);  // rules_sheet.cpp
void check_sheet(const camera::Sheet& sheet, const Spot& spot, Report& report);                    // rules_sheet.cpp
void check_cameras(const need::Project& project, Report& report);                                  // rules_cameras.cpp
/// Feeds, ways, runs, and what holds the mounts.
void check_carriers(const need::Project& project, Report& report);    // rules_carriers.cpp
void check_fed_feeds(const need::Project& project, Report& report);   // rules_power.cpp
void check_needs(const need::Project& project, Report& report);       // rules_needs.cpp
void check_settings(const need::Settings& settings, Report& report);  // rules_settings.cpp
void check_typical(const detail::Typical& typical, Report& report);   // rules_typical.cpp
void check_estimates(const camera::Sheet& sheet, const Spot& spot, Report& report);

}  // namespace sightfall::file
