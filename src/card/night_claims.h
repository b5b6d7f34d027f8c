// SPDX-License-Identifier: GPL-3.0-or-later
// The sheet's claims about light: how far its infrared reaches, and in how little light it still shows a picture.
//   Model    infrared reach holds where a face at that distance reaches kReachLevel of the table at the low end of what
//            is known, and does not where it falls short of the first level at the high end. Lowest light holds where a
//            matt grey surface has the signal to noise of kAcceptable at the longest shutter the claim may rest on
//   Source   ISO 12232: 10 is the first acceptable signal to noise; IEC 62676-5: the shutter is at most 1/25 s
//   Checked  night_claims_test.cpp
#pragma once
#include <vector>

#include "card/claims.h"
#include "card/open_ground.h"

namespace sightfall::card {

/// Index in the level table that an infrared reach is held to: something of a person is made out.
inline constexpr size_t kReachLevel = 2;
inline constexpr double kAcceptable = 10;

void add_night_claims(const CardRequest& request, const OpenGround& night, std::vector<Claim>& claims);

}  // namespace sightfall::card
