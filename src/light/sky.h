// SPDX-License-Identifier: GPL-3.0-or-later
// Light of the sky: sun, moon, twilight, stars; clear, overcast or in a storm; or a named light.
//   Model    global horizontal illuminance by altitude from the published polynomials; direct normal
//            127.5 klx exp(-0.21 m), m the relative air mass; diffuse what is left, at least 0. Overcast and storm:
//            diffuse only. docs/models.md section 4
//   Source   beside each number in sky.cpp
//   Limits   sea level, the moon at its mean distance; about 25 degrees the diffuse part of a clear sky comes out low
//            (a tenth), where the two models agree least
//   Checked  sky_test.cpp; tests/outside/illuminance_test.cpp
#pragma once
#include <optional>
#include <string_view>

#include "light/ephemeris.h"
#include "unit/quantity.h"

namespace sightfall::light {

enum class Clouds { kNone, kOvercast, kStorm };
enum class NamedSky { kBrightDay, kOvercast, kDusk, kLitNight, kDarkNight, kFog };

/// A disc in the sky whose light comes from one direction.
struct Disc {
  SkyPosition at;
  Illuminance normal;  ///< on a plane turned to it, at the ground
};

/// The light that the sky gives, nothing in the way.
struct SkyLight {
  Illuminance diffuse;                    ///< on the horizontal, from the whole sky
  std::optional<Disc> sun, moon;          ///< where they cast shadows
  std::optional<SkyPosition> sun_stands;  ///< also behind clouds and below the horizon; unset for a named light
  bool dark = false;  ///< lamps that burn after dark do: the sun is below kLampsOn, or the light is by name
};

/// Sun's altitude below which lamps that burn after dark do: the end of its disc's visibility and a little dusk.
inline constexpr Angle kLampsOn{-2 * 0.017453292519943295};

/// Global horizontal illuminance of a clear sky by the sun alone, stars included; by the moon alone. Altitudes
/// as published: without refraction.
Illuminance sunlight(Angle altitude);
Illuminance moonlight(Angle altitude, Angle phase);

/// Direct illuminance on a plane turned to the sun, clear sky; zero below the horizon. Altitude with refraction.
Illuminance direct_sun(Angle altitude);

/// Relative air mass of an apparent altitude.
double air_mass(Angle altitude);

SkyLight sky_light(const SkyPosition& sun, const MoonPosition& moon, Clouds clouds);
SkyLight named_sky(NamedSky name);

/// What a named light stands for, in words, such as `no sun, diffuse light of 10 lx, lamps lit`.
std::string_view in_words(NamedSky name);

}  // namespace sightfall::light
