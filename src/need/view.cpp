// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/view.h"

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <functional>
#include <numeric>
#include <span>

#include "camera/mask.h"
#include "need/illumination.h"

namespace sightfall::need {
namespace {

using namespace units;
using detail::Limit;
using geom::PlanPoint;
using geom::Vec3;

/// A point of the body, metres across and up from the subject's middle, on its plane.
struct BodyPoint {
  double across, up;
};

constexpr size_t kBodyPoints = 5;

/// Across a head (mean breadth 0.154 m, chin to crown 0.24 m: ANSUR II), just inside its edge.
constexpr std::array<BodyPoint, kBodyPoints> kFacePoints{{{0, 0}, {-0.07, 0}, {0.07, 0}, {0, 0.10}, {0, -0.10}}};
/// Across a car's plate of 0.52 x 0.11 m.
constexpr std::array<BodyPoint, kBodyPoints> kPlatePoints{{{0, 0}, {-0.25, 0}, {0.25, 0}, {-0.12, 0}, {0.12, 0}}};
/// Head to knee of a standing adult, around a middle at half of 1.7 m.
constexpr std::array<BodyPoint, kBodyPoints> kPersonPoints{
    {{0, 0.70}, {-0.2, 0.45}, {0.2, 0.45}, {0, 0.15}, {0, -0.35}}};
/// A car from the side, around a middle at half of 1.5 m.
constexpr std::array<BodyPoint, kBodyPoints> kVehiclePoints{
    {{0, 0}, {-0.8, -0.2}, {0.8, -0.2}, {-0.6, 0.5}, {0.6, 0.5}}};
constexpr std::array<BodyPoint, kBodyPoints> kObjectPoints{{{0, 0}, {-0.15, 0}, {0.15, 0}, {0, 0.15}, {0, -0.15}}};

std::span<const BodyPoint> body_of(Subject subject) {
  switch (subject) {
    case Subject::kFace:
      return kFacePoints;
    case Subject::kPlate:
      return kPlatePoints;
    case Subject::kPerson:
      return kPersonPoints;
    case Subject::kVehicle:
      return kVehiclePoints;
    case Subject::kObject:
      break;
  }
  return kObjectPoints;
}

/// Share of the body's points that must be seen: a face with an eye hidden or a plate with a character hidden is no
/// use.
double share_needed(Subject subject) {
  constexpr double kMostOfABody = 0.6;
  return subject == Subject::kFace || subject == Subject::kPlate ? 1.0 : kMostOfABody;
}

/// The subject's plane at one sample, a face's or plate's own and otherwise the one turned to the camera: unit vectors
/// across and outwards; up is the vertical.
struct Stance {
  Vec3 across, outward;
};

PlanPoint level_unit(PlanPoint p) {
  const double length = norm(p);
  return length > 0 ? (1 / length) * p : PlanPoint{0, 1};
}

bool has_a_front(const Need& need) { return need.subject == Subject::kFace || need.subject == Subject::kPlate; }

Stance stance_of(const Need& need, const Sample& sample, Vec3 to_eye) {
  PlanPoint facing = level_unit(geom::plan(to_eye));
  if (has_a_front(need) && need.facing == Facing::kTravel) facing = sample.travel;
  if (has_a_front(need) && need.facing == Facing::kHeading) facing = geom::heading_vector(need.facing_heading);
  return {{-facing.y, facing.x, 0}, {facing.x, facing.y, 0}};
}

bool faces(const Need& need, const detail::Typical& typical, const Stance& stance, Vec3 to_eye) {
  const Vec3 sight = unit(to_eye);
  if (need.subject == Subject::kPlate)
    return dot(stance.outward, sight) >= std::cos(typical.plate_angle.value.nominal * deg.si());
  if (need.subject != Subject::kFace) return true;
  const double yaw_cosine = dot(geom::plan(stance.outward), level_unit(geom::plan(to_eye)));
  const double pitch = std::abs(std::asin(std::clamp(sight.z, -1.0, 1.0)));
  return yaw_cosine >= std::cos(typical.face_yaw.value.nominal * deg.si()) &&
         pitch <= typical.face_pitch.value.nominal * deg.si();
}

/// Which way the subject moves: as it travels, as it faces, or, for one that may turn any way, across the view.
Vec3 motion_of(const Need& need, const Sample& sample, const Stance& stance) {
  if (norm(sample.travel) > 0) return {sample.travel.x, sample.travel.y, 0};
  if (need.facing == Facing::kHeading) {
    const PlanPoint ahead = geom::heading_vector(need.facing_heading);
    return {ahead.x, ahead.y, 0};
  }
  return need.subject == Subject::kFace ? stance.outward : stance.across;
}

/// Works through the samples of one call; holds what all of them share.
class Viewer {
 public:
  Viewer(const Station& station, const Lighting& lighting, const Need& need)
      : station_{station},
        lighting_{lighting},
        scene_{lighting.scene()},
        need_{need},
        typical_{lighting.project().settings.typical},
        body_{body_of(need.subject)} {}

  std::vector<SampleView> unlit(const std::vector<Sample>& samples) const {
    std::vector<SampleView> views(samples.size());
    std::vector<BodyParts> inside(samples.size());
    for (size_t i = 0; i < samples.size(); ++i) views[i] = geometry(samples[i], inside[i]);
    hide(samples, inside, views);
    return views;
  }

  std::vector<SampleView> view(const std::vector<Sample>& samples, const std::vector<PlaceLight>& lights) const {
    std::vector<SampleView> views = unlit(samples);
    for (size_t i = 0; i < samples.size(); ++i) light(samples[i], lights[i], views[i]);
    return views;
  }

  void light(const Sample& sample, const PlaceLight& place, SampleView& view) const {
    if (view.gate != Limit::kNone) return;
    if (need_.colour && station_.monochrome) {
      view.gate = Limit::kColour;
      return;
    }
    illuminate(station_, lighting_, place, posed_at(station_, lighting_, need_, sample), view.seen);
    if (view.seen.passed >= 1 || !station_.infrared_on) return;
    const Vec3 to_eye = station_.pose.eye_site - sample.at_site;
    const double distance = norm(to_eye);
    if (const auto veil = scene_.first_veil(station_.pose.eye_site, (-1 / distance) * to_eye, Length{distance}))
      view.seen.veil_own = std::pow(distance / std::max(veil->distance, 0.05), 2);
  }

 private:
  /// Which of the body's points are in the picture.
  using BodyParts = std::bitset<kBodyPoints>;

  Vec3 in_camera(Vec3 point_site) const {
    return station_.pose.camera_from_site * (point_site - station_.pose.eye_site);
  }

  Vec3 body_point(const Sample& sample, const Stance& stance, BodyPoint p) const {
    return sample.at_site + p.across * stance.across + Vec3{0, 0, p.up};
  }

  bool falls_inside(Vec3 point_site) const { return shows(station_, in_camera(point_site)); }

  bool is_masked(Vec3 middle) const {
    const auto at = camera::image_point(station_.lens.projector, middle);
    return at && camera::masked(station_.masks, station_.lens.projector, *at);
  }

  /// How many of the body's points must be in the picture and unhidden.
  double needed() const { return share_needed(need_.subject) * static_cast<double>(body_.size()); }

  /// Of a sample that is not in the picture, not all.
  BodyParts inside(const Sample& sample, const Stance& stance) const {
    BodyParts parts;
    for (size_t i = 0; i < body_.size(); ++i) {
      if (static_cast<double>(parts.count() + body_.size() - i) < needed()) return parts;
      parts[i] = falls_inside(body_point(sample, stance, body_[i]));
    }
    return parts;
  }

  /// Everything but what hides, and which parts are in the picture.
  SampleView geometry(const Sample& sample, BodyParts& parts) const {
    SampleView view;
    const Vec3 to_eye = station_.pose.eye_site - sample.at_site;
    const Stance stance = stance_of(need_, sample, to_eye);
    parts = inside(sample, stance);
    if (static_cast<double>(parts.count()) < needed()) {
      if (!station_.masks.empty() && is_masked(in_camera(sample.at_site))) view.gate = Limit::kMask;
      return view;
    }
    const Vec3 middle = in_camera(sample.at_site);
    if (!camera::image_point(station_.lens.projector, middle)) return view;
    if (dot(stance.outward, to_eye) <= 0 || !faces(need_, typical_, stance, to_eye)) {
      view.gate = Limit::kAngle;
      return view;
    }
    const auto turned = [&](Vec3 v) { return station_.pose.camera_from_site * v; };
    const camera::PointJacobian j = camera::jacobian(station_.lens.projector, middle);
    const camera::SurfaceDensity on = camera::surface_density(j, turned(stance.across), turned({0, 0, 1}));
    const Vec3 motion = turned(motion_of(need_, sample, stance));
    view.seen.density = on.least;
    view.seen.depth = std::max(middle.z, 0.0);
    view.seen.motion_density = std::hypot(dot(j.u, motion), dot(j.v, motion));
    view.seen.area = on.least > 0 ? on.determinant / (on.least * on.least) : 1;
    if (station_.lens.projector.mapping == camera::Mapping::kFisheye) view.seen.depth = norm(middle);
    view.height_density = on.up;
    view.gate = Limit::kNone;
    return view;
  }

  /// Rays to each point of the body of every sample that is in the picture: all samples for one point at a time, so
  /// that rays next to each other stay together.
  void hide(const std::vector<Sample>& samples, const std::vector<BodyParts>& inside,
            std::vector<SampleView>& views) const {
    std::vector<size_t> open;
    for (size_t i = 0; i < views.size(); ++i)
      if (views[i].gate != Limit::kOutOfView && views[i].gate != Limit::kMask) open.push_back(i);
    std::vector<float> x(open.size()), y(open.size()), z(open.size()), fraction(open.size());
    std::vector<std::array<float, kBodyPoints>> passed(open.size());
    size_t nth = 0;
    for (const BodyPoint p : body_) {
      for (size_t k = 0; k < open.size(); ++k) {
        const Sample& sample = samples[open[k]];
        const Stance stance = stance_of(need_, sample, station_.pose.eye_site - sample.at_site);
        const Vec3 point = body_point(sample, stance, p);
        x[k] = static_cast<float>(point.x);
        y[k] = static_cast<float>(point.y);
        z[k] = static_cast<float>(point.z);
      }
      scene_.passed_from(station_.pose.eye_site, {x, y, z}, fraction);
      for (size_t k = 0; k < open.size(); ++k) passed[k][nth] = inside[open[k]][nth] ? fraction[k] : 0;
      ++nth;
    }
    for (size_t k = 0; k < open.size(); ++k) {
      SampleView& view = views[open[k]];
      const double through = passed_by_the_best(passed[k]);
      if (through <= 0)
        view = {{}, Limit::kOcclusion, 0};
      else if (view.gate == Limit::kNone)
        view.seen.passed = through;
    }
  }

  /// The mean over as many of the body's points as are needed, the clearest ones, so that hiding the others changes
  /// nothing; 0 when fewer are seen.
  double passed_by_the_best(std::array<float, kBodyPoints>& passed) const {
    std::sort(passed.begin(), passed.end(), std::greater<>{});
    const auto count = static_cast<size_t>(std::lround(needed()));
    if (passed[count - 1] <= 0) return 0;
    const double sum = std::accumulate(passed.begin(), passed.begin() + static_cast<std::ptrdiff_t>(count), 0.0);
    return sum / static_cast<double>(count);
  }

  const Station& station_;
  const Lighting& lighting_;
  const site::Scene& scene_;
  const Need& need_;
  const detail::Typical& typical_;
  std::span<const BodyPoint> body_;
};

}  // namespace

std::vector<SampleView> view_of(const Station& station, const Lighting& lighting, const Need& need,
                                const std::vector<Sample>& samples, const std::vector<PlaceLight>& lights) {
  return Viewer{station, lighting, need}.view(samples, lights);
}

std::vector<SampleView> unlit_view_of(const Station& station, const Lighting& lighting, const Need& need,
                                      const std::vector<Sample>& samples) {
  return Viewer{station, lighting, need}.unlit(samples);
}

void put_in_light(const Station& station, const Lighting& lighting, const Need& need, const Sample& sample,
                  const PlaceLight& light, SampleView& view) {
  Viewer{station, lighting, need}.light(sample, light, view);
}

Posed posed_at(const Station& station, const Lighting& lighting, const Need& need, const Sample& sample) {
  const Vec3 to_eye = station.pose.eye_site - sample.at_site;
  const bool on_wheels = need.subject == Subject::kPlate || need.subject == Subject::kVehicle;
  const bool towards = dot(sample.travel, geom::plan(to_eye)) > 0.5 * norm(geom::plan(to_eye));
  return {need.subject, sample.at_site, stance_of(need, sample, to_eye).outward,
          on_wheels && towards && lighting.dark()};
}

std::vector<PlaceLight> light_on(const Lighting& lighting, const std::vector<Sample>& samples) {
  std::vector<geom::SitePoint> places;
  places.reserve(samples.size());
  for (const Sample& sample : samples) places.push_back(sample.at_site);
  return lighting.at(places);
}

}  // namespace sightfall::need
