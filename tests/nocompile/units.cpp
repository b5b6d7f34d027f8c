// SPDX-License-Identifier: GPL-3.0-or-later
// Unit mistakes that must not compile, one for each macro; without a macro the file compiles, right beside wrong.
// See CMakeLists.txt here, which names every case and the compiler's complaint that it waits for.
#include "geom/pose.h"
#include "unit/quantity.h"

namespace sightfall {

using namespace sightfall::units;

Pixels pixels_on(PixelDensity density, Length width) { return density * width; }
Length smear(Speed speed, Time shutter) { return speed * shutter; }

void cases() {
  Length length = 12.0 * mm;
  const Time shutter = 5.0 * ms;
  const Angle heading = 30.0 * deg;
  const PixelDensity density = 320.0 * px / m;
  const geom::SitePoint eye_site{1, 2, 3};
  const geom::ImagePoint image{100, 200};

  length = 2.0 * m + 30.0 * mm;
#ifdef LENGTH_PLUS_TIME
  length = length + shutter;
#endif
#ifdef LENGTH_FROM_A_NUMBER
  length = 12.0;
#endif
#ifdef NUMBER_FROM_A_LENGTH
  const double number = length;
#endif
  const double metres = length.in(m);
#ifdef LENGTH_READ_IN_SECONDS
  const double seconds = length.in(s);
#endif
  const bool wide = heading > 20.0 * deg;
#ifdef ANGLE_AGAINST_A_RATIO
  const bool wider = heading > 0.5;
#endif
#ifdef ANGLE_PLUS_A_NUMBER
  const Angle turned = heading + 90.0;
#endif
#ifdef AREA_AS_LENGTH
  length = length * length;
#endif
#ifdef PIXELS_AS_LENGTH
  length = 100.0 * px;
#endif
  Pixels across = pixels_on(density, length);
#ifdef PITCH_AS_DENSITY
  across = pixels_on(m / (320.0 * px), length);
#endif
#ifdef ARGUMENTS_EXCHANGED
  across = pixels_on(length, density);
#endif
  length = smear(1.4 * m / s, shutter);
#ifdef RATE_AS_SHUTTER
  length = smear(1.4 * m / s, 200.0 * Hz);
#endif
  geom::Pose pose = geom::pose_of(eye_site, heading, heading, heading);
#ifdef DEGREES_WITHOUT_A_UNIT
  pose = geom::pose_of(eye_site, 30.0, heading, heading);
#endif
#ifdef IMAGE_POINT_AS_SITE_POINT
  pose = geom::pose_of(image, heading, heading, heading);
#endif
  (void)metres, (void)wide, (void)across, (void)pose, (void)image;
}

}  // namespace sightfall
