// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/reach.h"

#include <fmt/format.h>

#include "need/cautions.h"

namespace sightfall::loads {

using namespace units;

namespace {

/// HSE INDG455 (from memory): light loads, up to 10 kg, and some 30 minutes in one position.
constexpr Mass kLadderLoad{10};
constexpr int kLadderMinutes = 30;
/// A single ladder's longest, an Australian and New Zealand access rule; a step ladder's is 6 m.
constexpr Length kSingleLadder{9};

}  // namespace

Length foot_out(Length up) { return up / 4; }

Length foot_out_of_length(Length working) { return working / 4; }

std::vector<std::string> access_words(Length height, Mass carried, bool on_pole) {
  std::vector<std::string> words;
  if (height < need::kReachOfHand) words.push_back(need::within_reach_words(height));
  if (height <= need::kWorkAtHeight) return words;
  const bool lift = height > kSingleLadder || carried > kLadderLoad;
  if (lift)
    words.push_back(
        fmt::format("{:.1f} m up with {:.1f} kg: a lift or a scaffold, not a ladder, which is for short work "
                    "with light loads (up to {:.0f} kg) and at the most some {:.0f} m long",
                    height.in(m), carried.in(kg), kLadderLoad.in(kg), kSingleLadder.in(m)));
  else
    words.push_back(
        fmt::format("{}a leaning ladder stands {:.1f} m out for {:.1f} m up (one out for four up), tied, on "
                    "firm level ground, three points of contact, some {} minutes in one position at the most; "
                    "never from the top of a stepladder",
                    on_pole ? "on a rest made for poles " : "", foot_out(height).in(m), height.in(m), kLadderMinutes));
  if (on_pole && !lift)
    words.emplace_back(
        "no ladder leans on a bare pole: with a rest made for poles and tied to it, or a ladder that stands by itself "
        "(common practice, no published source)");
  words.push_back(std::string("first see whether the work can be done from the ground: ") + need::kHeightKills);
  return words;
}

}  // namespace sightfall::loads
