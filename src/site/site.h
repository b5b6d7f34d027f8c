// SPDX-License-Identifier: GPL-3.0-or-later
// The site as it is described: the ground, what stands on it, what hides, where cameras can be fixed, which places
// matter.
//   Frame    x east, y north, z up, metres from the site's own origin; heights named *_m above ground are above the
//            ground under the thing, `base_m` is a height in the site frame
//   Plain structs: the document reader (file/) has validated them; nothing here checks again
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geom/mesh.h"
#include "geom/polygon.h"
#include "geom/vec.h"
#include "site/carriers.h"
#include "unit/quantity.h"

namespace sightfall::site {

/// Ties the site frame to the world: the site origin's WGS84 position.
struct Anchor {
  Angle latitude, longitude;
  Length height;          ///< of the site frame's z = 0 above the ellipsoid or the map's datum
  Angle turn;             ///< from the site's y axis to true north, clockwise
  std::string time_zone;  ///< IANA name, may be empty
};

/// Flat at z = 0, or a regular grid of heights (row 0 in the south, columns from west to east).
struct Terrain {
  geom::PlanPoint south_west;
  Length step{1};
  int columns = 0, rows = 0;    ///< zero: flat
  std::vector<double> heights;  ///< m in the site frame, row by row

  bool flat() const { return columns == 0; }
};

enum class SolidKind { kBuilding, kWall, kBox, kRoof, kVehicle };

/// A surface that stops light. Which fields count depends on the kind.
struct Solid {
  std::string name;
  SolidKind kind = SolidKind::kBuilding;
  geom::Outline outline;              ///< building, roof
  std::vector<geom::PlanPoint> line;  ///< wall
  geom::PlanPoint at;                 ///< box, vehicle: the centre
  Angle heading;                      ///< box, vehicle: of the length
  std::optional<Length> base;      ///< in the site frame; unset: the lowest ground under it (a wall follows the ground)
  Length height;                   ///< of the top above the base; for a roof, of its underside
  Length thickness;                ///< wall, roof
  Length overhang;                 ///< roof: beyond its outline on every side
  Length size_across, size_along;  ///< box, vehicle: horizontal size across and along the heading
  std::vector<geom::Opening> openings;  ///< building
  std::string material;                 ///< name of a material; empty: the usual one of its kind
};

enum class VeilKind { kMesh, kRailing, kHedge, kTree };

/// A surface or a volume that passes a fraction of the light, by season.
struct Veil {
  std::string name;
  VeilKind kind = VeilKind::kMesh;
  std::vector<geom::PlanPoint> line;  ///< mesh, railing, hedge
  geom::PlanPoint at;                 ///< tree: the trunk
  Length height;                      ///< of the top above ground
  Length thickness;                   ///< hedge
  Length crown_radius, crown_base;    ///< tree: crown's radius; height of its lower edge above ground
  double summer = 1, winter = 1;      ///< fraction of the light passed on the way straight through
};

/// A place a camera can be fixed.
struct Mount {
  std::string name;
  geom::PlanPoint at;
  Length height;                                  ///< of the lens above the ground under it
  std::optional<Angle> heading_from, heading_to;  ///< allowed headings, clockwise from the first to the second
  std::string surface;                            ///< what it is fixed to, such as `brick wall` or `pole`
  std::string access;                             ///< how it is reached, such as `ladder`
  Angle sway;                                     ///< amplitude of its swing in wind, zero when rigid
  Frequency sway_frequency;
  std::optional<HeldBy> held_by;  ///< unset: by its pole, else not known
  std::optional<Fixing> fixing;
  std::optional<Pole> pole;
  bool back_box = false;  ///< whether a box behind the bracket holds the camera's tail and plug
};

enum class PlaceKind { kZone, kLine, kRoute };

/// Where something must be made out: an area, a line, or a route along which something passes.
struct Place {
  std::string name;
  PlaceKind kind = PlaceKind::kZone;
  geom::Outline outline;              ///< zone
  std::vector<geom::PlanPoint> line;  ///< line, route: in the direction of travel
  Length width;                       ///< route: of the way, so that passages keep to its middle and its edges
  std::optional<Speed> speed;         ///< route
  bool guarded = false;               ///< whether the least-seen way from the boundary to it is asked for
};

/// A neighbour's window: what a camera shows of it is told.
struct Window {
  std::string name;
  geom::PlanPoint at;
  Length height;  ///< of its centre above ground
  Length width{1};
  Angle facing;  ///< heading of its outward normal
};

/// What the light of a lamp is made of.
enum class LampLight { kLed, kHalogen, kSodium, kInfrared850, kInfrared940 };

/// When a lamp burns in a condition that does not list the lamps that do.
enum class Burns { kAfterDark, kAlways, kWhenListed };

/// A lamp of the site that no camera carries. Visible light by a photometric file, or by lumens and beam; infrared by
/// the watts it draws and its beam.
struct Lamp {
  std::string name;
  geom::PlanPoint at;
  Length height;  ///< of its light above the ground under it
  Angle heading;  ///< of its axis
  Angle tilt;     ///< of its axis below the horizon; a quarter turn is straight down
  LampLight light = LampLight::kLed;
  std::string photometry;              ///< file beside the document (LM-63 or EULUMDAT); empty: a plain lamp
  std::optional<LuminousFlux> lumens;  ///< of a plain lamp
  std::optional<Power> draw;           ///< of an infrared lamp, electrical
  std::optional<Angle> beam;      ///< full width at half of the intensity on the axis; unset: cosine, a matt surface
  std::optional<double> flicker;  ///< swing over the mean, on the mains; unset: typical of its light
  Burns burns = Burns::kAfterDark;
};

enum class Leaves { kOn, kOff };

/// Light that is named instead of being worked out from date and hour (light/sky.h says what each one is).
enum class NamedLight { kBrightDay, kOvercast, kDusk, kLitNight, kDarkNight, kFog };

enum class Weather { kClear, kOvercast, kStorm };
enum class AirKind { kClear, kHaze, kFog, kRain };

/// A date and hour by the clock of the anchor's time zone.
struct ClockTime {
  int year = 2000, month = 1, day = 1, hour = 0, minute = 0;
  bool operator==(const ClockTime&) const = default;
};

/// A moment in which needs are judged. With neither a named light nor a clock time there is ample light everywhere.
struct Condition {
  std::string name;
  Leaves leaves = Leaves::kOn;
  std::optional<NamedLight> light;
  std::optional<ClockTime> when;
  double julian_day = 0;  ///< of `when`, in universal time: the reader works it out
  Weather weather = Weather::kClear;
  AirKind air = AirKind::kClear;
  std::optional<Length> visibility;               ///< meteorological range; unset: the usual one of its kind of air
  std::optional<std::vector<std::string>> lamps;  ///< those that burn; unset: each as its `burns` says

  bool ample() const { return !light && !when; }
};

/// A picture of a plan that the site is drawn over. Nothing is worked out from it.
struct Plan {
  std::string picture;  ///< PNG file beside the document
  int columns = 1, rows = 1;
  Quantity<Dim{.m = 1, .px = -1}> scale{0.1};  ///< metres a pixel
  geom::PlanPoint north_west;                  ///< its upper left corner
  Angle turn;                                  ///< from the site's y axis to its upward direction, clockwise
};

struct Site {
  std::optional<Anchor> anchor;
  std::optional<Plan> plan;
  Terrain terrain;
  std::string ground;  ///< name of its material; empty: the usual one
  std::vector<Solid> solids;
  std::vector<Veil> veils;
  std::vector<Mount> mounts;
  std::vector<Lamp> lamps;
  std::vector<Place> places;
  geom::Ring boundary;
  std::vector<Window> neighbours;
  std::vector<Feed> feeds;
  std::vector<Way> ways;
  std::vector<Run> runs;
  std::optional<Wind> wind;
};

}  // namespace sightfall::site
