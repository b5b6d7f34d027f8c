// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/illumination.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "light/air.h"
#include "light/infrared.h"
#include "light/spectrum.h"
#include "light/surfaces.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::Vec3;
using light::Band;
using light::PerBand;

constexpr double kNearest = 0.05;  // m: the subject does not touch the lamp

PerBand reflectance_of(const light::Materials& materials, Subject subject) {
  constexpr std::array<const char*, 5> kNames{"skin", "clothing", "car paint", "object", "plate sheeting"};
  constexpr double kGrey = 0.3;  // of a table without subjects
  const size_t index = subject == Subject::kFace      ? 0
                       : subject == Subject::kPerson  ? 1
                       : subject == Subject::kVehicle ? 2
                       : subject == Subject::kObject  ? 3
                                                      : 4;
  return materials.reflectance(kNames.at(index), kGrey);
}

/// Stray light of a source, as a matt white surface would have to be lit to look as bright.
double stray(const detail::Typical& typical, double angle) {
  constexpr double kNearestAngle = 1;  // degree: the source itself is no nearer to what is looked at
  const double degrees = std::max(Angle{angle}.in(deg), kNearestAngle);
  return std::numbers::pi * typical.flare.value.nominal / (degrees * degrees);
}

double angle_between(Vec3 a, Vec3 b) { return std::acos(std::clamp(geom::dot(a, b), -1.0, 1.0)); }

/// A car's two dipped headlights beside its plate.
PerBand headlight_glare(const detail::Typical& typical, double distance, const PerBand& transmission) {
  constexpr double kAside = 0.6;  // m, from the plate
  const double lux = 2 * typical.headlight.value.nominal / (distance * distance);
  const PerBand at_lens = lux * (light::photons_per_lux(light::Spectrum::kHalogen) * transmission);
  return stray(typical, std::atan2(kAside, distance)) * at_lens;
}

}  // namespace

double relative_illumination(const camera::Projector& projector, double cosine) {
  constexpr double kLeastCosine = 0.7071067811865476;  // cos^4 holds to about 45 degrees; beyond it stays
  if (projector.mapping == camera::Mapping::kFisheye) {
    const double theta = std::acos(std::clamp(cosine, -1.0, 1.0));
    return theta < 1e-6 ? 1 : std::max(cosine, 0.05) * std::sin(theta) / theta;
  }
  const double c = std::max(cosine, kLeastCosine);
  return c * c * c * c;
}

double sheeting(const detail::Typical& typical, double alpha, double cosine_incidence, double cosine_view) {
  const double back = light::retroreflection(typical.plate_retro.value.nominal,
                                             typical.plate_retro_half.value.nominal * deg, Angle{alpha});
  return std::numbers::pi * back * cosine_incidence / std::max(cosine_view, 0.1);
}

double own_light(const OwnInfrared& infrared, double cosine_off_axis, double distance) {
  const double d = std::max(distance, kNearest);
  return infrared.photons * infrared.intensity * light::relative_intensity(infrared.exponent, cosine_off_axis) /
         (d * d);
}

double own_glass_light(const OwnInfrared& infrared) {
  return infrared.photons * infrared.intensity * infrared.glass_return;
}

double own_path_light(const Station& station, const Lighting& lighting, double cosine_off_axis, double distance) {
  const OwnInfrared& infrared = *station.infrared;
  const double sigma = lighting.extinction(infrared.band);
  const double scatter = station.scatter_angle;
  return std::numbers::pi * infrared.photons * infrared.intensity *
         light::relative_intensity(infrared.exponent, cosine_off_axis) *
         light::backscatter(sigma, scatter, infrared.overlap, Length{distance});
}

double cover_of(const Station& station, Subject subject, double density) {
  // Width and height of what shows, m: the body with a face, the car with a plate (from memory).
  const bool on_wheels = subject == Subject::kPlate || subject == Subject::kVehicle;
  const double width = on_wheels ? 1.8 : 0.45, height = on_wheels ? 1.5 : subject == Subject::kObject ? 0.5 : 1.7;
  const camera::Projector& p = station.lens.projector;
  return std::min(1.0, width * density / p.columns) * std::min(1.0, height * density / p.rows);
}

PerBand stray_light(const Station& station, const detail::Typical& typical, Vec3 direction) {
  PerBand glare;
  for (const Direct& source : station.glare) {
    constexpr double kHood = 0.5;  // cosine: a lamp farther off the axis than 60 degrees does not reach the glass
    if (geom::dot(source.towards, station.pose.camera_from_site.row[2]) < kHood) continue;
    glare += stray(typical, angle_between(source.towards, direction)) * source.normal;
  }
  return glare;
}

void illuminate(const Station& station, const Lighting& lighting, const PlaceLight& light, const Posed& posed,
                detail::Seen& seen) {
  const detail::Typical& typical = lighting.project().settings.typical;
  const Vec3 way = station.pose.eye_site - posed.at;
  const double distance = std::max(geom::norm(way), kNearest);
  const Vec3 to_eye = (1 / distance) * way;
  const double cosine = -geom::dot(to_eye, station.pose.camera_from_site.row[2]);
  const double falls = relative_illumination(station.lens.projector, cosine);
  const double facing = std::max(0.0, geom::dot(posed.outward, to_eye));
  const PerBand transmission = lighting.transmission(distance);
  const PerBand matt = reflectance_of(lighting.project().settings.materials, posed.subject);
  const bool plate = posed.subject == Subject::kPlate;

  PerBand from_subject = matt * light.on(posed.outward, station.number);
  PerBand swinging = matt * light.swinging_on(posed.outward);
  if (plate)
    for (const Direct& one : light.direct) {
      if (geom::dot(posed.outward, one.towards) <= 0) continue;
      if (one.camera != kNoCamera && one.camera == station.number) continue;
      const PerBand back = sheeting(typical, angle_between(one.towards, to_eye), 1, facing) * one.normal;
      from_subject += back;
      swinging += one.flicker * back;
    }
  seen.others = falls * dot(station.response, transmission * from_subject);
  seen.flicker = seen.others > 0 ? falls * dot(station.response, transmission * swinging) / seen.others : 0;
  PerBand hidden;  // the share of the sky's light that the air lays over the subject
  for (const Band band : light::kBands) hidden[band] = (1 - transmission[band]) * lighting.sky()[band];
  seen.path = falls * dot(station.response, hidden);
  seen.air = seen.others > 0 ? seen.others / (falls * dot(station.response, from_subject)) : 1;

  PerBand glare = stray_light(station, typical, -to_eye);
  if (posed.headlights) glare += headlight_glare(typical, distance, transmission);
  seen.glare = dot(station.response, glare);

  seen.own = seen.own_path = seen.own_glass = 0;
  seen.cover = cover_of(station, posed.subject, seen.density);
  seen.shaded = posed.subject == Subject::kFace;
  if (!station.infrared_on) return;
  const OwnInfrared& infrared = *station.infrared;
  const double response = falls * station.response[infrared.band];
  const double through = transmission[infrared.band];
  double back = matt[infrared.band] * facing;
  if (plate) back += sheeting(typical, infrared.offset / distance, 1, facing);
  seen.own = response * own_light(infrared, cosine, distance) * back * through * through;
  seen.own_path = response * own_path_light(station, lighting, cosine, distance);
  seen.own_glass = station.response[infrared.band] * own_glass_light(infrared);
  if (seen.own > seen.others) seen.air = through;
}

}  // namespace sightfall::need
