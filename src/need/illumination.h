// SPDX-License-Identifier: GPL-3.0-or-later
// From light to electrons: what a camera's pixel collects in a second from a subject, from the air before it, and from
// stray light.
//   Model    E_image = rho E / (4 N^2) through the lens, falling off as cos^4 (fisheye: cos(theta) sin(theta) / theta);
//            own infrared by inverse square, out and back through the air; plate sheeting beside its matt part;
//            backscatter; stray light falling with the square of the angle from its source. docs/models.md sections 4,
//            5
//   Checked  illumination_test.cpp; tests/physics/night_laws_test.cpp
#pragma once
#include "need/lighting.h"
#include "need/need.h"
#include "need/station.h"

namespace sightfall::need {

/// How a subject stands at a place. Vectors are unit vectors.
struct Posed {
  Subject subject = Subject::kFace;
  geom::SitePoint at;
  geom::Vec3 outward;       ///< normal of its plane
  bool headlights = false;  ///< it drives towards the camera with its lamps on
};

/// The rates of `seen`, by the light of its place; the geometry in it is left as it is.
void illuminate(const Station& station, const Lighting& lighting, const PlaceLight& light, const Posed& posed,
                detail::Seen& seen);

/// Share of light that a lens passes at an angle off its axis over that on the axis.
double relative_illumination(const camera::Projector& projector, double cosine);

/// What sheeting sends back of light that comes at an angle (rad) of lamp and lens, as the reflectance of a matt
/// surface.
double sheeting(const detail::Typical& typical, double alpha, double cosine_incidence, double cosine_view);

/// Own infrared that falls on a plane turned to the camera, photons/(s m2) of its band, at full power.
double own_light(const OwnInfrared& infrared, double cosine_off_axis, double distance);

/// The same light that the air scatters back, as a matt white surface would have to be lit to look as bright.
double own_path_light(const Station& station, const Lighting& lighting, double cosine_off_axis, double distance);

/// The same light that the pane before lamp and lens throws back, whatever the lens looks at.
double own_glass_light(const OwnInfrared& infrared);

/// Stray light of the sources that reach the lens, over what lies in a direction of the site (unit), as a matt white
/// surface would have to be lit to look as bright.
light::PerBand stray_light(const Station& station, const detail::Typical& typical, geom::Vec3 direction);

/// Share of the frame that a subject fills: what shows of the body that a face or a plate belongs to.
double cover_of(const Station& station, Subject subject, double density);

}  // namespace sightfall::need
