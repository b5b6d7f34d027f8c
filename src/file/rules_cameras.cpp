// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "file/by_name.h"
#include "file/field.h"
#include "file/rules.h"

namespace sightfall::file {
namespace {

using namespace sightfall::units;

constexpr double kSlack = 1e-9;  // relative: a value that is the bound but for rounding is within it

std::string range(const std::string& low, const std::string& high) { return low == high ? low : low + " to " + high; }

void check_heading(const camera::Camera& camera, const site::Mount& mount, const Spot& spot, Report& report) {
  if (!mount.heading_from || !mount.heading_to) return;
  const double from = mount.heading_from->in(deg), to = mount.heading_to->in(deg), heading = camera.heading.in(deg);
  if (std::abs(to - from) >= 360) return;
  const auto turn = [](double degrees) { return degrees - 360 * std::floor(degrees / 360); };
  constexpr double kSlackDegrees = 1e-6;
  const double beyond = turn(heading - from + kSlackDegrees);
  if (beyond <= turn(to - from) + 2 * kSlackDegrees) return;
  report.add(ErrorKind::kField, spot.at("heading_deg"),
             fmt::format("found {}; mount {} allows headings {} to {} deg, clockwise", number(camera.heading, deg),
                         in_quotes(mount.name), number(*mount.heading_from, deg), number(*mount.heading_to, deg)));
}

template <Dim D>
void check_within(const std::optional<Quantity<D>>& value, const camera::Ends<Quantity<D>>& allowed, Quantity<D> unit,
                  std::string_view unit_name, const camera::Sheet& sheet, const Spot& spot, Report& report) {
  if (!value) return;
  if (*value >= allowed.wide * (1 - kSlack) && *value <= allowed.tele * (1 + kSlack)) return;
  report.add(ErrorKind::kField, spot,
             fmt::format("found {}; sheet {} allows {} {}", number(*value, unit), in_quotes(sheet.name),
                         range(number(allowed.wide, unit), number(allowed.tele, unit)), unit_name));
}

void check_f_number(const camera::Camera& camera, const camera::Sheet& sheet, const Spot& spot, Report& report) {
  if (!camera.f_number) return;
  constexpr double kWidestOpen = 0.5, kSmallestIris = 64;
  const camera::Ends<double> stated = sheet.f_number.value_or(camera::Ends<double>{kWidestOpen, kSmallestIris});
  const double open = std::min(stated.wide, stated.tele);
  const double closed = sheet.iris == camera::Iris::kFixed ? std::max(stated.wide, stated.tele)
                                                           : sheet.smallest_iris.value_or(kSmallestIris);
  if (*camera.f_number >= open * (1 - kSlack) && *camera.f_number <= closed * (1 + kSlack)) return;
  report.add(ErrorKind::kField, spot.at("f_number"),
             fmt::format("found {}; sheet {} has a{} iris and allows {}", print_number(*camera.f_number),
                         in_quotes(sheet.name), sheet.iris == camera::Iris::kFixed ? " fixed" : "n adjustable",
                         range(print_number(open), print_number(closed))));
}

void check_focus(const camera::Camera& camera, const camera::Sheet& sheet, const Spot& spot, Report& report) {
  if (!camera.focus || !sheet.closest_focus || *camera.focus >= *sheet.closest_focus * (1 - kSlack)) return;
  report.add(ErrorKind::kField, spot.at("focus_m"),
             fmt::format("found {}; sheet {} focuses no nearer than {} m", number(*camera.focus, m),
                         in_quotes(sheet.name), number(*sheet.closest_focus, m)));
}

void check_frame_rate(const camera::Camera& camera, const camera::Sheet& sheet, const Spot& spot, Report& report) {
  if (!camera.frame_rate || sheet.frame_rates.empty()) return;
  const double highest = *std::max_element(sheet.frame_rates.begin(), sheet.frame_rates.end());
  if (*camera.frame_rate <= highest * (1 + kSlack)) return;
  report.add(ErrorKind::kField, spot.at("frame_rate"),
             fmt::format("found {}; sheet {} offers up to {} Hz", print_number(*camera.frame_rate),
                         in_quotes(sheet.name), print_number(highest)));
}

void check_gain(const camera::Camera& camera, const camera::Sheet& sheet, const Spot& spot, Report& report) {
  if (!camera.largest_gain || !sheet.sensor || !sheet.sensor->largest_gain) return;
  if (*camera.largest_gain <= *sheet.sensor->largest_gain * (1 + kSlack)) return;
  report.add(ErrorKind::kField, spot.at("largest_gain_db"),
             fmt::format("found {}; sheet {} allows up to {} dB", print_number(*camera.largest_gain),
                         in_quotes(sheet.name), print_number(*sheet.sensor->largest_gain)));
}

void check_infrared(const camera::Camera& camera, const camera::Sheet& sheet, const Spot& spot, Report& report) {
  if (camera.infrared != camera::InfraredUse::kOn || sheet.infrared) return;
  report.add(
      ErrorKind::kField, spot.at("infrared"),
      fmt::format(R"(found "on"; sheet {} has no infrared; allowed: "automatic", "off")", in_quotes(sheet.name)));
}

void check_settings_of(const camera::Camera& camera, const camera::Sheet& sheet, const Spot& sheet_spot,
                       const Spot& spot, Report& report) {
  if (report.clean(sheet_spot.path, "focal_mm"))
    check_within(camera.focal, sheet.focal, mm, "mm", sheet, spot.at("focal_mm"), report);
  if (sheet.shutter && report.clean(sheet_spot.path, "shutter_s")) {
    check_within(camera.shutter, *sheet.shutter, s, "s", sheet, spot.at("shutter_s"), report);
    check_within(camera.slowest_shutter, *sheet.shutter, s, "s", sheet, spot.at("slowest_shutter_s"), report);
  }
  check_f_number(camera, sheet, spot, report);
  check_focus(camera, sheet, spot, report);
  check_frame_rate(camera, sheet, spot, report);
  check_gain(camera, sheet, spot, report);
  check_stream(camera.stream, spot, report);
  if (report.clean(sheet_spot.path, "infrared")) check_infrared(camera, sheet, spot, report);
}

}  // namespace

void check_cameras(const need::Project& project, Report& report) {
  const ByName sheets(project.catalogue, "", "catalogue", report);
  const ByName mounts(project.site.mounts, "site", "mounts", report);
  for (size_t i = 0; i < project.cameras.size(); ++i) {
    const camera::Camera& camera = project.cameras[i];
    const Spot spot = item_spot("cameras", i, camera.name);
    const camera::Sheet* sheet = sheets.find(camera.sheet, spot.at("sheet"), "sheet of the catalogue", report);
    const site::Mount* mount = mounts.find(camera.mount, spot.at("mount"), "mount of the site", report);
    if (sheet != nullptr)
      check_settings_of(camera, *sheet, spot_of(*sheet, project.catalogue, "catalogue"), spot, report);
    if (mount != nullptr && report.clean(spot.path, "heading_deg")) check_heading(camera, *mount, spot, report);
  }
}

}  // namespace sightfall::file
