// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/walk_project.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "camera/lens.h"
#include "card/open_ground.h"
#include "file/project.h"
#include "file/words.h"

namespace sightfall::cli {
namespace {

using namespace units;

template <class Named>
std::string names_of(const std::vector<Named>& all) {
  std::vector<std::string_view> names;
  names.reserve(all.size());
  for (const Named& one : all) names.push_back(one.name);
  return file::listed(names);
}

/// The one that is named or, without a name, the only one.
template <class Named>
const Named* chosen(const std::vector<Named>& all, const std::string& name, std::string_view option, Errors& errors) {
  if (name.empty() && all.size() == 1) return &all.front();
  const Named* found = need::find_named(all, name);
  if (found == nullptr)
    errors.push_back(request_error(
        option, name.empty() ? fmt::format("missing; allowed: {}", names_of(all))
                             : fmt::format("found {}; allowed: {}", file::in_quotes(name), names_of(all))));
  return found;
}

/// A sheet at a mount that looks north over flat open ground, by day and by a black night; the subject comes straight
/// at it.
need::Project open_ground(const camera::Sheet& sheet, const Given& given) {
  need::Project project;
  project.name = sheet.name + " on open ground";
  project.settings.typical = file::default_typical();
  project.settings.materials = file::default_materials();
  project.settings.levels = file::standard_level_tables().front();
  project.catalogue = {sheet};
  constexpr double kFace = 1.6;  // m: without a height the axis is level with a face
  site::Mount mount;
  mount.name = "mount";
  mount.height = Length{given.number("--height").value_or(kFace)};
  project.site.mounts = {mount};
  camera::Camera camera;
  camera.name = sheet.name;
  camera.sheet = sheet.name;
  camera.mount = "mount";
  if (const auto focal = given.number("--focal")) camera.focal = *focal * mm;
  if (const auto focus = given.number("--focus")) camera.focus = *focus * m;
  if (const auto tilt = given.number("--tilt")) {
    camera.tilt = *tilt * deg;
  } else if (given.has("--height")) {
    const camera::Lens lens = camera::lens_at(
        sheet, {camera.focal.value_or(sheet.focal.wide), {}, project.settings.typical.f_number_unknown.value.nominal});
    camera.tilt = 0.5 * camera::vertical_view(lens.projector);  // the horizon on the picture's upper edge
  }
  project.cameras = {camera};
  site::Place path;
  path.name = "open ground";
  path.kind = site::PlaceKind::kRoute;
  constexpr double kFar = 300, kNear = 0.5;                    // m
  const std::vector<double> marks = given.numbers("--marks");  // nobody waits for a clip from farther away
  const double from = marks.empty() ? kFar : *std::max_element(marks.begin(), marks.end());
  path.line = {{0, std::clamp(from, 2 * kNear, kFar)}, {0, kNear}};
  project.site.places = {path};
  project.conditions = {card::card_day(), card::card_night()};
  return project;
}

walk::Mover mover_on(const need::Project& project, const std::string& route) {
  const bool driven = std::any_of(project.needs.begin(), project.needs.end(), [&](const need::Need& need) {
    return need.place == route && (need.subject == need::Subject::kPlate || need.subject == need::Subject::kVehicle);
  });
  return driven ? walk::Mover::kCar : walk::Mover::kWalker;
}

void choose_mover(const Given& given, walk::WalkRequest& request, Errors& errors) {
  constexpr std::array<std::string_view, 3> kNames{"walker", "car", "target"};
  if (!given.has("--subject")) {
    request.mover = mover_on(*request.project, request.route->name);
    return;
  }
  const auto* found = std::find(kNames.begin(), kNames.end(), given.text("--subject"));
  if (found == kNames.end())
    errors.push_back(request_error("--subject", fmt::format(R"(found {}; allowed: "walker", "car", "target")",
                                                            file::in_quotes(given.text("--subject")))));
  else
    request.mover = static_cast<walk::Mover>(found - kNames.begin());
}

}  // namespace

Checked<need::Project> walk_project(const Given& given) {
  if (!given.has("--open-ground")) {
    if (!given.has("SITE"))
      return tl::make_unexpected(Errors{request_error("SITE", "missing; needed is a site, or --open-ground SHEET")});
    for (const char* option : {"--height", "--tilt", "--focal", "--focus"})
      if (given.has(option))
        return tl::make_unexpected(
            Errors{request_error(option, "found with a site, whose document says it; allowed with --open-ground")});
    return file::load_project(given.text("SITE"));
  }
  for (const char* argument : {"SITE", "ROUTE", "--camera"})
    if (given.has(argument))
      return tl::make_unexpected(Errors{request_error(argument, "found beside --open-ground, which has none")});
  const auto sheet = file::load_sheet(given.text("--open-ground"));
  if (!sheet) return tl::make_unexpected(sheet.error());
  return open_ground(*sheet, given);
}

Checked<walk::WalkRequest> walk_request(const Given& given, const need::Project& project) {
  Errors errors;
  walk::WalkRequest request;
  request.project = &project;
  std::vector<site::Place> routes;
  for (const site::Place& place : project.site.places)
    if (place.kind != site::PlaceKind::kZone) routes.push_back(place);
  const site::Place* route = chosen(routes, given.text_or("ROUTE", ""), "ROUTE", errors);
  if (route != nullptr) request.route = need::find_named(project.site.places, route->name);
  request.camera = chosen(project.cameras, given.text_or("--camera", ""), "--camera", errors);
  request.condition = chosen(project.conditions, given.text_or("--when", ""), "--when", errors);
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  choose_mover(given, request, errors);
  for (const double mark : given.numbers("--marks")) request.marks.push_back(mark * m);
  request.seed = static_cast<uint64_t>(given.number("--seed").value_or(1));
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  return request;
}

}  // namespace sightfall::cli
