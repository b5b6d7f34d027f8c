// SPDX-License-Identifier: GPL-3.0-or-later
#include <unordered_set>

#include "file/by_name.h"
#include "file/project.h"
#include "file/rules.h"

namespace sightfall::file {
namespace {

void check_route_only(const need::Need& need, const site::Place& place, const Spot& spot, Report& report) {
  if (place.kind == site::PlaceKind::kRoute) return;
  const std::string why = "allowed only where something passes along a route, and " + in_quotes(place.name) + " is a " +
                          (place.kind == site::PlaceKind::kZone ? "zone" : "line");
  if (need.once_a_passage) report.add(ErrorKind::kField, spot.at("once_a_passage"), why);
  if (need.facing == need::Facing::kTravel) report.add(ErrorKind::kField, spot.at("facing"), "\"travel\" is " + why);
}

void check_level(const need::Need& need, const detail::LevelTable& table, const Spot& spot, Report& report) {
  if (need.level.empty() || table.find(need.level) != nullptr) return;
  std::vector<std::string_view> names;
  for (const detail::Level& level : table.levels) names.push_back(level.name);
  report.add(ErrorKind::kReference, spot.at("level"),
             "no level of table " + in_quotes(table.name) + " is called " + in_quotes(need.level) +
                 suggestion(need.level, names));
}

void check_conditions(const need::Need& need, const ByName<site::Condition>& conditions, const Spot& spot,
                      Report& report) {
  std::unordered_set<std::string_view> seen;
  for (size_t i = 0; i < need.conditions.size(); ++i) {
    const Spot at = spot.at("conditions[" + std::to_string(i) + "]");
    conditions.find(need.conditions[i], at, "condition", report);
    if (!seen.insert(need.conditions[i]).second)
      report.add(ErrorKind::kField, at, "found " + in_quotes(need.conditions[i]) + " a second time; once is enough");
  }
}

}  // namespace

void check_needs(const need::Project& project, Report& report) {
  const ByName places(project.site.places, "site", "places", report);
  const ByName conditions(project.conditions, "", "conditions", report);
  const bool table_readable = report.clean("settings", "level_table") && report.clean("settings", "level_tables");
  const detail::LevelTable* table = table_readable ? find_level_table(project.settings) : nullptr;
  for (size_t i = 0; i < project.needs.size(); ++i) {
    const need::Need& need = project.needs[i];
    const Spot spot = item_spot("needs", i, need.name);
    const site::Place* place = places.find(need.place, spot.at("place"), "place of the site", report);
    if (place != nullptr && report.clean(spot_of(*place, project.site.places, "site.places").path, "kind"))
      check_route_only(need, *place, spot, report);
    if (table != nullptr) check_level(need, *table, spot, report);
    check_conditions(need, conditions, spot, report);
  }
}

}  // namespace sightfall::file
