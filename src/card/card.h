// SPDX-License-Identifier: GPL-3.0-or-later
// The range card: what one camera delivers at each distance by day and by night, where it is in focus, how far each
// level reaches, where its infrared burns out, and which of its sheet's claims hold.
//   Model    docs/models.md section 8. A face walks straight at the camera over flat open ground. Without a mount
//            height the subject's plane is normal to the axis and the distance runs along it; with one the distance
//            runs along the ground and the picture's upper edge lies on the horizon unless a tilt is given.
//   Checked  card_test.cpp; tests/outside/trade_facts_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "camera/camera.h"
#include "camera/sheet.h"
#include "card/claims.h"
#include "detail/levels.h"
#include "detail/limit.h"
#include "detail/typical.h"
#include "light/surfaces.h"

namespace sightfall::card {

/// What is asked: the camera's settings, and where it hangs.
struct CardRequest {
  camera::Sheet sheet;
  camera::Camera setting;                  ///< focal length, focus, shutter, f-number; heading and mount are not used
  std::optional<Length> height;            ///< of the mount
  std::optional<Angle> tilt;               ///< with a height
  std::vector<Length> marks;               ///< rising; empty: default_marks()
  std::vector<detail::LevelTable> tables;  ///< the first is the one whose levels are named
  detail::Typical typical;
  light::Materials materials;
};

/// What is made out of a face at a mark in one light.
struct Seeing {
  Ranged<PixelDensity> delivered;   ///< zero when not seen
  std::vector<std::string> levels;  ///< reached nominally, one a table; empty text: none
  detail::Limit limit = detail::Limit::kNone;
  double noise_ratio = 0;  ///< signal over noise of a pixel of the face
  Time shutter;            ///< that automatic exposure comes to
  double gain = 0;         ///< dB
  double power = 0;        ///< of the camera's infrared, share; 0: it does not burn
};

struct Mark {
  Length distance;
  Length width, height;  ///< of what the picture takes in there, on a plane normal to the axis
  PixelDensity density;  ///< geometric; zero outside the picture
  Seeing day, night;
};

/// Where a face's bright parts burn out by the camera's own infrared: nearer than this.
struct Clipping {
  std::optional<Length> fixed, adaptive;  ///< with full power, and with power that adapts; unset: nowhere
  double ground_reflectance = 0;          ///< in the infrared's band
  double largest_gain = 0;                ///< dB
};

/// The shutter that keeps the blur of something that crosses the picture within one pixel.
struct ShutterNeed {
  std::string mover;
  Speed speed;
  Length distance;  ///< at which the picture has kShutterDensity
  Time shutter;
  double noise_ratio = 0, noise_ratio_automatic = 0;  ///< by night: with it, and with the automatic one
  Ranged<Angle> lean;                                 ///< of its upright edges, for rows are read one after the other
};
inline constexpr PixelDensity kShutterDensity{125};

/// Where focus holds. The far end may be infinite; both are zero where no distance passes.
struct FocusReach {
  Length near, far;
};

/// A stretch between the ends of a reach where the level is lost, such as where a face burns out in the beam of the
/// infrared. Shorter ones than kShortestGap, or than this share of their distance, are passed over.
struct Gap {
  Length from, to;
};
inline constexpr Length kShortestGap{0.5};
inline constexpr double kShortestGapShare = 0.03;

/// Where a level is delivered; the level of the first table first.
struct LevelReach {
  std::string table, level;
  std::optional<Length> nearest, farthest;
  std::vector<Gap> gaps;  ///< the nearest first
};

struct RangeCard {
  std::string camera;
  Length focal, focus;  ///< focus: set or assumed
  double f_number = 0;
  Angle horizontal_view, vertical_view, tilt;
  std::vector<Mark> marks;
  FocusReach one_pixel;        ///< blur of at most one pixel
  FocusReach seventy_percent;  ///< focus alone keeps 70 % of the density
  std::vector<LevelReach> reach, reach_night;
  bool infrared = false;    ///< whether it burns by night
  bool monochrome = false;  ///< by night
  Clipping clipping;
  std::vector<ShutterNeed> shutters;
  std::optional<Length> eye_distance;  ///< inside which its infrared exceeds the limit for looking into it for long
  bool glows = false;                  ///< whether its infrared is seen to glow
  std::vector<Claim> claims;
  std::vector<Assumption> assumptions;
  std::vector<std::string> cautions;
};

/// The card of a valid sheet.
RangeCard range_card(const CardRequest& request);

/// What is delivered on distances spaced evenly by their logarithm, for a picture: kCurvePoints from kCurveNear to
/// kCurveFar.
std::vector<Mark> curve(const CardRequest& request);
inline constexpr int kCurvePoints = 60;
inline constexpr Length kCurveNear{1}, kCurveFar{200};

/// Distances of a card when none are asked for; 46 and 61 m are 150 and 200 ft.
std::vector<Length> default_marks();

}  // namespace sightfall::card
