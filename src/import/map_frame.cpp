// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/map_frame.h"

#include <fmt/format.h>
#include <ogr_srs_api.h>

#include <cmath>
#include <limits>

#include "import/gdal_quiet.h"

namespace sightfall::import {
using namespace sightfall::units;
namespace {

struct FreeReference {
  void operator()(void* reference) const { OSRDestroySpatialReference(reference); }
};
using Reference = std::unique_ptr<void, FreeReference>;

/// x is east or longitude, whatever the authority's own order; heights are handled apart.
Reference new_reference() {
  Reference reference{OSRNewSpatialReference(nullptr)};
  OSRSetAxisMappingStrategy(reference.get(), OAMS_TRADITIONAL_GIS_ORDER);
  return reference;
}

Result<Reference> reference_of_text(const std::string& crs) {
  Reference reference = new_reference();
  if (OSRSetFromUserInput(reference.get(), crs.c_str()) != OGRERR_NONE)
    return failure(ErrorKind::kField, "its map projection is not understood: name the right one, such as EPSG:28992");
  OSRStripVertical(reference.get());
  OSRSetAxisMappingStrategy(reference.get(), OAMS_TRADITIONAL_GIS_ORDER);
  return reference;
}

Reference wgs84() {
  Reference reference = new_reference();
  OSRImportFromEPSG(reference.get(), 4326);
  return reference;
}

Reference local(const site::Anchor& anchor) {
  Reference reference = new_reference();
  const std::string text = fmt::format("+proj=tmerc +lat_0={:.12f} +lon_0={:.12f} +k=1 +datum=WGS84 +units=m +type=crs",
                                       anchor.latitude.in(deg), anchor.longitude.in(deg));
  OSRImportFromProj4(reference.get(), text.c_str());
  return reference;
}

void transform(void* transformation, std::span<geom::PlanPoint> points) {
  std::vector<double> x(points.size()), y(points.size());
  std::vector<int> done(points.size(), 0);
  for (size_t i = 0; i < points.size(); ++i) {
    x[i] = points[i].x;
    y[i] = points[i].y;
  }
  OCTTransformEx(transformation, static_cast<int>(points.size()), x.data(), y.data(), nullptr, done.data());
  constexpr double kNowhere = std::numeric_limits<double>::quiet_NaN();
  for (size_t i = 0; i < points.size(); ++i) {
    const bool placed = done[i] != 0 && std::isfinite(x[i]) && std::isfinite(y[i]);
    points[i] = placed ? geom::PlanPoint{x[i], y[i]} : geom::PlanPoint{kNowhere, kNowhere};
  }
}

tl::unexpected<Error> no_way() {
  return failure(ErrorKind::kField, "no way is known from its map projection to latitude and longitude");
}

/// The middle of places on the globe: the mean of their unit vectors, which knows no date line.
std::optional<site::Anchor> middle(const std::vector<geom::PlanPoint>& degrees) {
  geom::Vec3 sum;
  for (const geom::PlanPoint p : degrees) {
    if (!(std::abs(p.x) <= 360 && std::abs(p.y) <= 90)) continue;
    const double longitude = (p.x * deg).si(), latitude = (p.y * deg).si();
    sum = sum + geom::Vec3{std::cos(latitude) * std::cos(longitude), std::cos(latitude) * std::sin(longitude),
                           std::sin(latitude)};
  }
  if (norm(sum) == 0) return std::nullopt;
  const auto rounded = [](Angle angle) { return std::round(angle.in(deg)*1e6) / 1e6 * deg; };
  site::Anchor anchor;
  anchor.latitude = rounded(Angle{std::atan2(sum.z, std::hypot(sum.x, sum.y))});
  anchor.longitude = rounded(Angle{std::atan2(sum.y, sum.x)});
  return anchor;
}

}  // namespace

void MapFrame::Free::operator()(void* transformation) const { OCTDestroyCoordinateTransformation(transformation); }

MapFrame::MapFrame(Transformation to_local, Transformation to_map, Angle turn)
    : to_local_{std::move(to_local)},
      to_map_{std::move(to_map)},
      cos_turn_{std::cos(turn.si())},
      sin_turn_{std::sin(turn.si())} {}

Result<MapFrame> MapFrame::between(const std::string& crs, const site::Anchor& anchor) {
  const GdalQuiet quiet;
  const Result<Reference> map = reference_of_text(crs);
  if (!map) return tl::make_unexpected(map.error());
  const Reference frame = local(anchor);
  Transformation to_local{OCTNewCoordinateTransformation(map->get(), frame.get())};
  Transformation to_map{OCTNewCoordinateTransformation(frame.get(), map->get())};
  if (to_local == nullptr || to_map == nullptr) return no_way();
  return MapFrame{std::move(to_local), std::move(to_map), anchor.turn};
}

void MapFrame::to_site(std::span<geom::PlanPoint> points) const {
  const GdalQuiet quiet;
  transform(to_local_.get(), points);
  // True north lies at the heading `turn` in the site frame.
  for (geom::PlanPoint& p : points) p = {p.x * cos_turn_ + p.y * sin_turn_, p.y * cos_turn_ - p.x * sin_turn_};
}

void MapFrame::to_map(std::span<geom::PlanPoint> points) const {
  const GdalQuiet quiet;
  for (geom::PlanPoint& p : points) p = {p.x * cos_turn_ - p.y * sin_turn_, p.y * cos_turn_ + p.x * sin_turn_};
  transform(to_map_.get(), points);
}

Result<std::string> crs_named(const std::string& name) {
  const GdalQuiet quiet;
  const std::string prefix = "EPSG:";
  const std::string digits = name.rfind(prefix, 0) == 0 ? name.substr(prefix.size()) : "";
  const bool number =
      !digits.empty() && digits.size() <= 9 && digits.find_first_not_of("0123456789") == std::string::npos;
  const Reference reference = new_reference();
  if (!number || OSRImportFromEPSG(reference.get(), std::stoi(digits)) != OGRERR_NONE)
    return failure(ErrorKind::kRequest,
                   "\"" + name + "\" names no map projection: it is written as EPSG: and a known number, EPSG:28992");
  return name;
}

Result<site::Anchor> anchor_for(const std::optional<site::Anchor>& anchor, const std::string& crs,
                                std::vector<geom::PlanPoint> points) {
  if (anchor) return *anchor;
  const GdalQuiet quiet;
  const Result<Reference> map = reference_of_text(crs);
  if (!map) return tl::make_unexpected(map.error());
  const Reference degrees = wgs84();
  const std::unique_ptr<void, decltype(&OCTDestroyCoordinateTransformation)> to_degrees{
      OCTNewCoordinateTransformation(map->get(), degrees.get()), OCTDestroyCoordinateTransformation};
  if (to_degrees == nullptr) return no_way();
  transform(to_degrees.get(), points);
  const std::optional<site::Anchor> found = middle(points);
  if (!found) return failure(ErrorKind::kField, "its coordinates lie nowhere on the earth: name its map projection");
  return *found;
}

std::string place_text(const site::Anchor& anchor) {
  const double latitude = anchor.latitude.in(deg), longitude = anchor.longitude.in(deg);
  return fmt::format("{:.6f} {} {:.6f} {}", std::abs(latitude), latitude < 0 ? "S" : "N", std::abs(longitude),
                     longitude < 0 ? "W" : "E");
}

}  // namespace sightfall::import
