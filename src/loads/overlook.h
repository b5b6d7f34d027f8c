// SPDX-License-Identifier: GPL-3.0-or-later
// What each camera shows of others: neighbours' windows and the ground beyond the boundary; the mask that would remove
// it, and what that mask would cost the needs.
//   Model    docs/models.md section 9: a window at its corners and its middle, where it faces the camera and is not
//            hidden, at the density on its own plane; the ground beyond the boundary on a grid, as far as the lowest
//            level's density. A mask is the smallest rectangle of the picture, a little larger, over what shall not
//            show; its cost is the needs judged again with it
//   Limits   day and night alike: density, not delivered detail, for law asks what may be seen and not how well by
//            night; one rectangle a thing; leaves off, when most is seen
//   Checked  overlook_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/progress.h"
#include "loads/bearing.h"
#include "loads/cabling.h"
#include "need/check.h"

namespace sightfall::loads {

/// A need that a mask would make worse.
struct MaskCost {
  std::string need;
  need::Answer before = need::Answer::kMet, after = need::Answer::kMet;
  double share_before = 0, share_after = 0;  ///< nominal
  PixelDensity worst_before, worst_after;    ///< delivered at the worst place, nominal
};

/// `gate: still met, share 100 % to 98 %, worst place 146 px/m to 0 px/m`; what stays is left out.
std::string cost_words(const MaskCost& cost, need::Units units);

/// One thing that one camera shows and that is not the user's own.
struct Overlooked {
  std::string camera;
  std::string window;    ///< name of the neighbour's window; empty: ground beyond the boundary
  PixelDensity density;  ///< the largest on it
  Area area;             ///< of ground
  camera::Mask mask;     ///< that would remove it
  std::vector<MaskCost> costs;
  bool judged = false;  ///< whether the needs were judged with the mask
};

struct Overlook {
  std::vector<Overlooked> things;  ///< cameras in the document's order
  bool no_boundary = false;        ///< the document draws none, so ground beyond it is not told
  std::vector<Caution> cautions;
  Held held = Held::kMet;  ///< marginal when anything of others shows: it is for the user to settle
};

/// What masks cost is worked out when `judge`, which takes about as long as a check without remedies.
Overlook overlook(const need::LitProject& lit, bool judge, const Progress& progress = {});

}  // namespace sightfall::loads
