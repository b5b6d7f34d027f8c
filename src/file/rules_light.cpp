// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <unordered_set>

#include "file/by_name.h"
#include "file/clock.h"
#include "file/rules.h"

namespace sightfall::file {
namespace {

bool infrared(const site::Lamp& lamp) {
  return lamp.light == site::LampLight::kInfrared850 || lamp.light == site::LampLight::kInfrared940;
}

/// One lamp: what its light follows from is there once, and nothing beside it.
void check_lamp(const site::Lamp& lamp, const Spot& spot, Report& report) {
  for (const char* field : {"", "light", "photometry", "lumens", "draw_w"})
    if (!report.clean(spot.path, field)) return;
  const auto wrong = [&](const char* field, const char* text) { report.add(ErrorKind::kField, spot.at(field), text); };
  const bool filed = !lamp.photometry.empty();
  if (infrared(lamp)) {
    if (!lamp.draw) wrong("draw_w", "missing; an infrared lamp needs the watts it draws");
    if (filed) wrong("photometry", "allowed only for visible light; an infrared lamp has draw_w");
    if (lamp.lumens) wrong("lumens", "allowed only for visible light; an infrared lamp has draw_w");
    if (lamp.flicker) wrong("flicker", "allowed only for visible light; infrared lamps run on direct current");
    return;
  }
  if (filed && lamp.lumens) wrong("lumens", "allowed only without photometry, which says how much light there is");
  if (!filed && !lamp.lumens) wrong("lumens", "missing; a visible lamp needs either lumens or photometry");
  if (lamp.draw) wrong("draw_w", "allowed only for infrared light");
  if (filed && lamp.beam) wrong("beam_deg", "allowed only without photometry, which says where the light goes");
}

void check_burning(const site::Condition& condition, const ByName<site::Lamp>& lamps, const Spot& spot,
                   Report& report) {
  if (!condition.lamps) return;
  std::unordered_set<std::string_view> seen;
  for (size_t i = 0; i < condition.lamps->size(); ++i) {
    const std::string& name = (*condition.lamps)[i];
    const Spot at = spot.at("lamps[" + std::to_string(i) + "]");
    lamps.find(name, at, "lamp of the site", report);
    if (!name.empty() && !seen.insert(name).second)
      report.add(ErrorKind::kField, at, "found " + in_quotes(name) + " a second time; once is enough");
  }
}

/// The zone that dates are meant in; empty when there is none that can be read, which is told once.
std::string zone_of(const need::Project& project, Report& report) {
  const Spot anchor{"site.anchor", {}, "time_zone"};
  if (!project.site.anchor || project.site.anchor->time_zone.empty() || !report.clean(anchor.path, anchor.field))
    return {};
  const std::string& zone = project.site.anchor->time_zone;
  if (const Result<void> found = find_zone(zone); !found) {
    report.add(found.error().kind, anchor, found.error().text);
    return {};
  }
  return zone;
}

/// Why a date cannot be used at all; nothing when it can, or when the reason is told at the anchor.
void check_anchor(const site::Site& site, const Spot& spot, Report& report) {
  if (!report.clean("", "site") || !report.clean("site", "anchor") || !report.clean("site.anchor", "time_zone")) return;
  if (!site.anchor)
    report.add(ErrorKind::kReference, spot, "needs a site with an anchor, which says where the sun stands");
  else if (site.anchor->time_zone.empty())
    report.add(ErrorKind::kReference, spot,
               "needs a time zone, and this is a site with no time zone: its anchor has none");
}

void resolve(site::Condition& condition, const std::string& zone, const Spot& spot, Report& report) {
  if (!day_exists(*condition.when))
    return report.add(ErrorKind::kField, spot.at("date"),
                      fmt::format("found day {} of month {}, which has fewer days in {}", condition.when->day,
                                  condition.when->month, condition.when->year));
  if (zone.empty()) return;
  const Result<double> day = julian_day(*condition.when, zone);
  if (day)
    condition.julian_day = *day;
  else
    report.add(day.error().kind, spot.at("time"), day.error().text);
}

}  // namespace

void check_lamps(const site::Site& site, Report& report) {
  for (size_t i = 0; i < site.lamps.size(); ++i)
    check_lamp(site.lamps[i], item_spot("site.lamps", i, site.lamps[i].name), report);
}

void check_conditions(need::Project& project, Report& report) {
  const ByName lamps(project.site.lamps, "site", "lamps", report);
  bool dated = false;
  for (const site::Condition& condition : project.conditions) dated |= condition.when.has_value();
  const std::string zone = dated ? zone_of(project, report) : "";
  for (size_t i = 0; i < project.conditions.size(); ++i) {
    site::Condition& condition = project.conditions[i];
    const Spot spot = item_spot("conditions", i, condition.name);
    check_burning(condition, lamps, spot, report);
    if (!condition.when) continue;
    check_anchor(project.site, spot.at("date"), report);
    resolve(condition, zone, spot, report);
  }
}

}  // namespace sightfall::file
