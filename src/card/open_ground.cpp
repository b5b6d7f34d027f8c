// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/open_ground.h"

#include <algorithm>
#include <utility>

#include "detail/sensor.h"

namespace sightfall::card {
namespace {

using namespace units;
using detail::Input;

/// A face that walks at the camera.
need::Need walking_face() {
  need::Need need;
  need.subject = need::Subject::kFace;
  return need;
}

need::Project open_project(const CardRequest& request) {
  need::Project project;
  project.settings.typical = request.typical;
  project.settings.materials = request.materials;
  project.site.mounts.emplace_back();  // a site with nothing on it has no ground, which the meter would miss
  return project;
}

}  // namespace

site::Condition card_day() {
  site::Condition day;
  day.name = "day";
  return day;
}

site::Condition card_night() {
  site::Condition night;
  night.name = "night";
  night.light = site::NamedLight::kDarkNight;
  return night;
}

OpenGround::OpenGround(const CardRequest& request, const site::Condition& condition)
    : OpenGround{request, condition, walking_face()} {}

OpenGround::OpenGround(const CardRequest& request, const site::Condition& condition, need::Need need)
    : request_{request},
      need_{std::move(need)},
      project_{open_project(request)},
      scene_{project_.site, condition.leaves},
      lighting_{project_, scene_, condition},
      values_{detail::RangedInputs{}} {
  camera::Camera camera = request.setting;
  if (camera.name.empty()) camera.name = request.sheet.name;
  camera.heading = camera.tilt = camera.roll = Angle{0};
  face_height_ = need::subject_height(need_, request.typical).si();
  const double eye_height = request.height ? request.height->si() : face_height_;
  station_ = need::station_at(request.sheet, camera, {0, 0, eye_height}, request.typical);
  if (request.height) {
    tilt_ = request.tilt.value_or(0.5 * camera::vertical_view(station_.lens.projector));
    station_.pose = geom::pose_of(station_.pose.eye_site, Angle{0}, tilt_, Angle{0});
  }
  station_ = need::in_condition(station_, lighting_);
  take_inputs();
}

void OpenGround::take_inputs() {
  values_ = detail::RangedValues{need::subject_inputs(station_, need_, request_.typical)};
}

void OpenGround::fix_shutter(Time shutter) {
  station_.constants.shutter_fixed = true;
  station_.inputs[static_cast<size_t>(Input::kShutter)] = Ranged<double>::exact(shutter.si());
  take_inputs();
}

void OpenGround::set_adaptive(bool adaptive) { station_.constants.limits.adaptive = adaptive && station_.infrared_on; }

need::SampleView OpenGround::view_at(double distance) const {
  const std::vector<need::Sample> samples{{{0, distance, face_height_}, {0, -1}, 0, 0}};
  const auto lights = need::light_on(lighting_, samples);
  need::SampleView view = need::view_of(station_, lighting_, need_, samples, lights).front();
  if (request_.height || view.gate != detail::Limit::kOutOfView) return view;
  // Nearer than the picture takes in a whole head, a card without a mount still tells the density on the axis.
  view.seen = {};
  view.seen.density = station_.lens.projector.focal_px / distance;
  view.seen.depth = distance;
  need::illuminate(station_, lighting_, lights.front(), {need_.subject, samples.front().at_site, {0, -1, 0}},
                   view.seen);
  view.gate = detail::Limit::kNone;
  return view;
}

double OpenGround::delivered_at(double distance) const {
  const need::SampleView view = view_at(distance);
  return view.gate == detail::Limit::kNone ? detail::delivered(station_.constants, view.seen, values()) : 0;
}

detail::Signal OpenGround::signal_at(double distance) const {
  const need::SampleView view = view_at(distance);
  return view.gate == detail::Limit::kNone ? detail::signal_of(station_.constants, view.seen, values())
                                           : detail::Signal{};
}

Seeing OpenGround::seeing_at(double distance) const {
  Seeing seeing;
  const need::SampleView view = view_at(distance);
  seeing.limit = view.gate;
  if (view.gate == detail::Limit::kNone) {
    const detail::DeliveredRange range = detail::delivered_range(station_.constants, view.seen, values_);
    seeing.delivered = {PixelDensity{range.value.low}, PixelDensity{range.value.nominal},
                        PixelDensity{range.value.high}};
    seeing.limit = detail::limit_of(station_.constants, view.seen, values());
    const detail::Signal signal = detail::signal_of(station_.constants, view.seen, values());
    seeing.noise_ratio = detail::noise_ratio(signal);
    seeing.shutter = Time{signal.exposed.time};
    seeing.gain = detail::decibels(signal.exposed.gain);
    seeing.power = station_.infrared_on ? signal.exposed.power : 0;
  }
  for (const detail::LevelTable& table : request_.tables) {
    const detail::Level* level = table.reached(seeing.delivered.nominal);
    seeing.levels.push_back(level != nullptr ? level->name : "");
  }
  return seeing;
}

}  // namespace sightfall::card
