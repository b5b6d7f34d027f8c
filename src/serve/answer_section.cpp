// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cmath>

#include "detail/delivered.h"
#include "file/answer_values.h"
#include "geom/section.h"
#include "need/frame.h"
#include "need/illumination.h"
#include "need/samples.h"
#include "need/view.h"
#include "serve/answers.h"
#include "serve/request.h"
#include "site/ground.h"
#include "site/scene.h"

namespace sightfall::serve {
namespace {

using namespace units;
using file::Form;
using file::kOptional;
using file::kRequired;
using file::List;
using file::Object;
using file::rounded;
using file::Value;
using geom::PlanPoint;

struct SectionRequest {
  std::string camera, condition;
  std::optional<Length> reach;
};

void describe(Form& form, SectionRequest& request) {
  form.text({"camera", kRequired, "name of a camera"}, request.camera);
  form.text({"condition", kRequired, "name of a condition"}, request.condition);
  form.number({"reach_m", file::kMetres, 2, kOptional, 500, "how far it goes; as far as there is something to see"},
              request.reach);
}

/// A camera in its condition, and the upright plane along its axis.
struct Plane {
  const need::Project* project = nullptr;
  need::Station station;
  PlanPoint from, direction;
  double reach = 0;  // m

  PlanPoint on_plan(double distance) const { return from + distance * direction; }
  double ground(double distance) const { return site::ground_height(project->site.terrain, on_plan(distance)).si(); }
};

Value in_plane(PlanPoint p) { return file::point(p); }

Value cut_lines(const std::vector<geom::Polyline>& lines) {
  return file::list(lines, [](const geom::Polyline& line) { return file::list(line.points, in_plane); });
}

List cuts_of(const Plane& plane) {
  const site::Site& site = plane.project->site;
  List cuts;
  const auto add = [&](const std::string& name, const char* kind, const geom::Mesh& mesh) {
    const auto lines = geom::section(mesh, plane.from, plane.direction, plane.reach);
    if (!lines.empty()) cuts.emplace_back(Object{{"name", name}, {"kind", kind}, {"lines", cut_lines(lines)}});
  };
  for (const site::Solid& solid : site.solids) add(solid.name, "solid", site::solid_mesh(site.terrain, solid));
  for (const site::Veil& veil : site.veils) add(veil.name, "veil", site::veil_mesh(site.terrain, veil));
  return cuts;
}

/// Steps along the plane: fine enough for the ground's line.
constexpr int kSteps = 200;

List ground_of(const Plane& plane) {
  List ground;
  for (int i = 0; i <= kSteps; ++i) {
    const double distance = plane.reach * i / kSteps;
    ground.push_back(in_plane({distance, plane.ground(distance)}));
  }
  return ground;
}

/// The line of sight through a point of the picture, from the eye to the ground or the plane's end.
std::array<PlanPoint, 2> sight(const Plane& plane, geom::ImagePoint at) {
  const geom::Vec3 eye = plane.station.pose.eye_site;
  const PlanPoint start{0, eye.z};
  const auto ray = camera::ray_camera(plane.station.lens.projector, at);
  if (!ray) return {start, start};
  const geom::Vec3 towards = geom::transposed(plane.station.pose.camera_from_site) * *ray;
  const double forward = geom::dot(geom::plan(towards), plane.direction);
  if (forward <= 0) return {start, PlanPoint{0, plane.ground(0)}};  // it looks back under the mount
  const auto height = [&](double distance) { return eye.z + towards.z / forward * distance; };
  double before = 0;
  for (int i = 1; i <= kSteps; ++i) {
    const double distance = plane.reach * i / kSteps;
    const double above = height(distance) - plane.ground(distance);
    if (above <= 0) {
      const double above_before = height(before) - plane.ground(before);
      const double meets = before + (distance - before) * above_before / (above_before - above);
      return {start, PlanPoint{meets, height(meets)}};
    }
    before = distance;
  }
  return {start, PlanPoint{plane.reach, height(plane.reach)}};
}

/// Where persons stand: a rounded step, about a dozen of them.
std::vector<double> person_distances(double reach) {
  constexpr std::array<double, 6> kSteps{0.5, 1, 2, 5, 10, 25};
  constexpr double kMost = 14;
  const auto step = std::find_if(kSteps.begin(), kSteps.end() - 1, [&](double one) { return reach / one <= kMost; });
  std::vector<double> distances(static_cast<size_t>(reach / *step + 1e-9));
  for (size_t i = 0; i < distances.size(); ++i) distances[i] = static_cast<double>(i + 1) * *step;
  return distances;
}

List persons_of(const Plane& plane, const need::Lighting& lighting) {
  const need::Project& project = *plane.project;
  need::Need face;
  face.subject = need::Subject::kFace;
  const Length up = need::subject_height(face, project.settings.typical);
  std::vector<need::Sample> samples;
  const std::vector<double> distances = person_distances(plane.reach);
  samples.reserve(distances.size());
  for (const double distance : distances)
    samples.push_back({site::above_ground(project.site.terrain, plane.on_plan(distance), up), -1 * plane.direction});
  const auto views = need::view_of(plane.station, lighting, face, samples, need::light_on(lighting, samples));
  const detail::RangedValues values{need::subject_inputs(plane.station, face, project.settings.typical)};
  List persons;
  for (size_t i = 0; i < views.size(); ++i) {
    const bool seen = views[i].gate == detail::Limit::kNone;
    Ranged<double> delivered{};
    detail::Limit limit = views[i].gate;
    if (seen) {
      delivered = detail::delivered_range(plane.station.constants, views[i].seen, values).value;
      limit = detail::limit_of(plane.station.constants, views[i].seen, values.nominal());
    }
    const detail::Level* level = project.settings.levels.reached(PixelDensity{delivered.nominal});
    persons.emplace_back(
        Object{{"distance_m", rounded(distances[i], 1000)},
               {"ground_z_m", rounded(plane.ground(distances[i]), 1000)},
               {"seen", seen},
               {"delivered_px_per_m", file::range(delivered, [](double d) { return file::density(PixelDensity{d}); })},
               {"level", level == nullptr ? Value{} : Value{level->name}},
               {"limit", file::limit_or_null(limit)}});
  }
  return persons;
}

/// Own infrared on the axis, over what it is at a metre.
List infrared_of(const Plane& plane) {
  List falls;
  if (!plane.station.infrared || !plane.station.infrared_on) return falls;
  const double at_a_metre = need::own_light(*plane.station.infrared, 1, 1);
  for (const double distance : person_distances(plane.reach))
    falls.emplace_back(List{rounded(distance, 1000),
                            rounded(need::own_light(*plane.station.infrared, 1, distance) / at_a_metre, 1e6)});
  return falls;
}

/// The distances between which the lens alone blurs by a pixel at most.
Value sharp_of(const need::Station& station) {
  const Length focus{station.inputs[static_cast<size_t>(detail::Input::kFocus)].nominal};
  const camera::DepthOfField field =
      camera::depth_of_field(station.lens.optics, focus, station.lens.pitch() * (1.0 * px));
  return List{file::metres(field.near), file::metres(field.far)};
}

/// A little farther than the picture's middle meets the site.
double usual_reach(const need::Station& station, const site::Scene& scene) {
  constexpr double kLeast = 8, kMost = 80, kBeyond = 1.3;
  const geom::Vec3 axis = geom::transposed(station.pose.camera_from_site) * geom::Vec3{0, 0, 1};
  const auto hit = scene.first_solid(station.pose.eye_site, axis, Length{kMost});
  return hit ? std::clamp(kBeyond * hit->distance * norm(geom::plan(axis)), kLeast, kMost) : kMost;
}

PlanPoint direction_of(const need::Station& station, Angle heading) {
  const PlanPoint axis = geom::plan(geom::transposed(station.pose.camera_from_site) * geom::Vec3{0, 0, 1});
  constexpr double kStraightDown = 1e-6;
  return norm(axis) > kStraightDown ? (1 / norm(axis)) * axis : geom::heading_vector(heading);
}

}  // namespace

Checked<Value> section_answer(const need::Project& project, const Value& request) {
  const auto asks = read_request<SectionRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  const auto condition = look_up(project.conditions, asks->condition, "condition");
  if (!condition) return tl::make_unexpected(condition.error());
  const auto camera = look_up(project.cameras, asks->camera, "camera");
  if (!camera) return tl::make_unexpected(camera.error());

  const need::LitScene lit = need::lit_scene(project, **condition);
  Plane plane{&project, need::in_condition(need::station_of(project, **camera), lit.lighting), {}, {}, 0};
  plane.from = geom::plan(plane.station.pose.eye_site);
  plane.direction = direction_of(plane.station, (*camera)->heading);
  plane.reach = asks->reach ? asks->reach->si() : usual_reach(plane.station, *lit.scene);

  const camera::Projector& p = plane.station.lens.projector;
  const auto upper = sight(plane, {p.centre_u(), 0}), lower = sight(plane, {p.centre_u(), p.rows - 1.0});
  return Value{Object{{"camera", (*camera)->name},
                      {"condition", (*condition)->name},
                      {"from", file::point(plane.from)},
                      {"heading_deg", rounded(geom::heading_of(plane.direction).in(deg), 100)},
                      {"reach_m", rounded(plane.reach, 1000)},
                      {"ground", ground_of(plane)},
                      {"cuts", cuts_of(plane)},
                      {"eye", in_plane({0, plane.station.pose.eye_site.z})},
                      {"upper", file::list(upper, in_plane)},
                      {"lower", file::list(lower, in_plane)},
                      {"dead_m", rounded(lower[1].x, 1000)},
                      {"sharp_m", sharp_of(plane.station)},
                      {"persons", persons_of(plane, lit.lighting)},
                      {"infrared", infrared_of(plane)}}};
}

}  // namespace sightfall::serve
