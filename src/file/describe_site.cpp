// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <array>

#include "file/describe.h"
#include "file/json.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 2> kHeldBy{"wall", "ceiling"};
constexpr std::array<std::string_view, 2> kTerrainKinds{"flat", "grid"};
enum class TerrainKind { kFlat, kGrid };
constexpr std::array<std::string_view, 3> kPlaceKinds{"zone", "line", "route"};

constexpr double kMostPlanSide = 12000;  // as serve/plan_upload.h takes them
constexpr double kMostHeights = 4e6;
constexpr double kLowestGround = -12000, kHighestGround = 12000;

}  // namespace

void describe(Form& form, site::Site& site) {
  form.object({"anchor", kOptional, "ties the site frame to the world"}, site.anchor);
  form.object({"plan", kOptional, "a picture of a plan that the site is drawn over"}, site.plan);
  form.object({"terrain", kOptional, "the ground; flat at height 0 when absent"}, site.terrain, !site.terrain.flat());
  form.text(
      {"ground", kOptional, "name of the material of the ground, of data/materials.json; the usual one when absent"},
      site.ground);
  form.list({"solids", kOptional, "what stops light"}, 0, kLongestList, site.solids);
  form.list({"veils", kOptional, "what passes a fraction of the light"}, 0, kLongestList, site.veils);
  form.list({"mounts", kOptional, "where cameras can be fixed"}, 0, kLongestList, site.mounts);
  form.list({"lamps", kOptional, "what lights it, but for the cameras' own lamps"}, 0, kLongestList, site.lamps);
  form.list({"places", kOptional, "where something must be made out"}, 0, kLongestList, site.places);
  form.points({"boundary", kOptional, "outline of the land that is the user's own"}, 3, site.boundary);
  form.list({"neighbours", kOptional, "windows of neighbours, of which it is told what cameras show"}, 0, kLongestList,
            site.neighbours);
  form.list({"feeds", kOptional, "where power and network start"}, 0, kLongestList, site.feeds);
  form.list({"ways", kOptional, "where cables may lie"}, 0, kLongestList, site.ways);
  form.list({"runs", kOptional,
             "cables from feeds to cameras and to other feeds; a camera may have two, one of network and one of power"},
            0, kLongestList, site.runs);
  form.object({"wind", kOptional, "that mounts must stand; the usual one when absent"}, site.wind);
}

void describe(Form& form, site::Anchor& anchor) {
  form.number({"latitude_deg", kDegrees, -90, kRequired, 90, "WGS84, of the site's origin"}, anchor.latitude);
  form.number({"longitude_deg", kDegrees, -180, kRequired, 180, "WGS84, of the site's origin"}, anchor.longitude);
  form.number({"height_m", kMetres, kLowestGround, 0, kHighestGround, "of the site's height 0 above the map's datum"},
              anchor.height);
  form.number({"turn_deg", kDegrees, -360, 0, 360,
               "from the site's y axis, from which all headings count, to true north, clockwise"},
              anchor.turn);
  form.text({"time_zone", kOptional, "IANA name of the time zone"}, anchor.time_zone);
}

void describe(Form& form, site::Plan& plan) {
  form.text({"picture", kRequired, "PNG file in the document's folder, by its bare name"}, plan.picture);
  form.whole({"columns", "", 1, kRequired, kMostPlanSide, "pixels of the picture from left to right"}, plan.columns);
  form.whole({"rows", "", 1, kRequired, kMostPlanSide, "pixels of the picture from top to bottom"}, plan.rows);
  form.number({"metres_per_pixel", kMetresPerPixel, 1e-5, kRequired, 1000, "of the site"}, plan.scale);
  form.point({"north_west", kRequired, "where the picture's upper left corner is"}, plan.north_west);
  form.number(
      {"turn_deg", kDegrees, -360, 0, 360, "from the site's y axis to the picture's upward direction, clockwise"},
      plan.turn);
}

void describe(Form& form, site::Terrain& terrain) {
  auto kind = terrain.flat() ? TerrainKind::kFlat : TerrainKind::kGrid;
  form.by_kind({"kind", kRequired, "flat at height 0, or a regular grid of heights"}, kTerrainKinds, kind, [&] {
    if (kind == TerrainKind::kFlat) return;
    form.point({"south_west", kRequired, "where the first height is"}, terrain.south_west);
    form.number({"step_m", kMetres, 0.01, kRequired, 10000, "between neighbouring heights"}, terrain.step);
    form.whole({"columns", "", 2, kRequired, kMostHeights / 2, "heights from west to east"}, terrain.columns);
    form.whole({"rows", "", 2, kRequired, kMostHeights / 2, "heights from south to north"}, terrain.rows);
    form.numbers({"heights_m", "m", kLowestGround, kRequired, kHighestGround,
                  "columns x rows heights, the southern row first, each from west to east"},
                 4, static_cast<size_t>(kMostHeights), terrain.heights);
  });
}

void describe(Form& form, site::Mount& mount) {
  form.name(mount.name);
  form.point({"at", kRequired, "where it is on the plan"}, mount.at);
  form.number({"height_m", kMetres, 0, kRequired, 60, "of the lens above the ground under it"}, mount.height);
  std::optional<camera::Ends<Angle>> headings;
  if (mount.heading_from && mount.heading_to) headings = {*mount.heading_from, *mount.heading_to};
  form.pair({"headings_deg", kDegrees, -360, kOptional, 360,
             "headings a camera can have here, clockwise from the first to the second; any when absent"},
            headings);
  if (headings) mount.heading_from = headings->wide, mount.heading_to = headings->tele;
  form.text({"surface", kOptional, "what it is fixed to, such as `brick wall`"}, mount.surface);
  form.text({"access", kOptional, "how it is reached, such as `ladder`"}, mount.access);
  form.number({"sway_deg", kDegrees, 0, 0, 20,
               "amplitude of its swing in wind; on a pole 0 stands for what a fresh breeze does to it"},
              mount.sway);
  form.number({"sway_hz", kHertz, 0, 0, 50,
               "how often it swings; 0 stands for as often as its pole does, or off a pole for the usual"},
              mount.sway_frequency);
  form.choice({"held_by", kOptional,
               "a wall or post beside the camera, or a ceiling or soffit above it; when absent a pole, else the larger "
               "pull of both"},
              kHeldBy, mount.held_by);
  form.object({"fixing", kOptional, "what holds the bracket"}, mount.fixing);
  form.object({"pole", kOptional, "that it is on"}, mount.pole);
  if (mount.sway_frequency > Frequency{0} && mount.sway <= Angle{0} && !mount.pole)
    form.fault("sway_hz", fmt::format("found {}; allowed only with sway_deg, or on a pole",
                                      print_number(mount.sway_frequency.si())));
  form.flag({"back_box", false, "whether a box behind the bracket holds the camera's tail and plug"}, mount.back_box);
}

void describe(Form& form, site::Place& place) {
  form.by_kind(
      {"kind", kRequired, "an area, a line, or a way along which something passes"}, kPlaceKinds, place.kind, [&] {
        form.name(place.name);
        if (place.kind == site::PlaceKind::kZone) {
          form.points({"outline", kRequired, "corners"}, 3, place.outline.outer);
          form.rings({"holes", kOptional, "outlines cut out of it"}, place.outline.holes);
        } else {
          form.points({"line", kRequired, "points along it, in the direction of travel"}, 2, place.line);
        }
        if (place.kind == site::PlaceKind::kRoute) {
          form.number({"width_m", kMetres, 0, 0, 100, "of the way"}, place.width);
          form.number({"speed_m_s", kMetresPerSecond, 0.01, kOptional, 100, "of what passes"}, place.speed);
        }
        form.flag({"guarded", false, "whether the least-seen way from the boundary to it is asked for"}, place.guarded);
      });
}

void describe(Form& form, site::Window& window) {
  form.name(window.name);
  form.point({"at", kRequired, "where it is on the plan"}, window.at);
  form.number({"height_m", kMetres, 0, kRequired, 500, "of its centre above ground"}, window.height);
  form.number({"width_m", kMetres, 0.05, 1, 100, "from side to side"}, window.width);
  form.number({"facing_deg", kDegrees, -360, kRequired, 360,
               "heading it looks out to, clockwise from the plan's north, its y axis"},
              window.facing);
}

}  // namespace sightfall::file
