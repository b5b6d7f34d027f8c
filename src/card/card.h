// SPDX-License-Identifier: GPL-3.0-or-later
// The range card: what one camera delivers at each distance by day, where it is in focus, how far each level reaches,
// and which of its sheet's claims hold.
//   Model    docs/models.md section 8. A face walks straight at the camera over flat open ground. Without a mount
//   height
//            the subject's plane is normal to the axis and the distance runs along it; with one the distance runs along
//            the ground and the picture's upper edge lies on the horizon unless a tilt is given.
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
};

struct Mark {
  Length distance;
  Length width, height;             ///< of what the picture takes in there, on a plane normal to the axis
  PixelDensity density;             ///< geometric; zero outside the picture
  Ranged<PixelDensity> delivered;   ///< by day; zero when not seen
  std::vector<std::string> levels;  ///< reached nominally, one a table; empty text: none
  detail::Limit limit = detail::Limit::kNone;
};

/// Where focus holds. The far end may be infinite; both are zero where no distance passes.
struct FocusReach {
  Length near, far;
};

/// Where a level is delivered; the level of the first table first.
struct LevelReach {
  std::string table, level;
  std::optional<Length> nearest, farthest;
};

struct RangeCard {
  std::string camera;
  Length focal, focus;  ///< focus: set or assumed
  double f_number = 0;
  Angle horizontal_view, vertical_view, tilt;
  std::vector<Mark> marks;
  FocusReach one_pixel;        ///< blur of at most one pixel
  FocusReach seventy_percent;  ///< focus alone keeps 70 % of the density
  std::vector<LevelReach> reach;
  std::vector<Claim> claims;
  std::vector<Assumption> assumptions;
  std::vector<std::string> cautions;
};

/// The card of a valid sheet.
RangeCard range_card(const CardRequest& request);

/// Distances of a card when none are asked for; 46 and 61 m are 150 and 200 ft.
std::vector<Length> default_marks();

}  // namespace sightfall::card
