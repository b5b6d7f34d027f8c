// SPDX-License-Identifier: GPL-3.0-or-later
// Delivered detail: the pixels a metre that survive focus, motion, lens, veil, air, noise and clipping.
//   Model    delivered = density * min(1, nu_res / nu_res(reference)); nu_res is the lowest frequency, at most half the
//            density, at which the contrast left falls below the threshold or a bar drowns in noise (Rose). The
//            reference is an ideal camera of equal density: pixel aperture, Gaussian of kReferenceBlur, contrast
//            kReferenceContrast, no noise. The exposure is what the camera comes to with the sample's subject in its
//            frame. docs/models.md sections 5 and 6
//   Domain   total: any finite input with density, blurs, rates >= 0 gives a finite value in [0, density]
//   Limits   of a camera whose stream is not known "before compression"
//   Checked  delivered_test.cpp; tests/physics (monotone laws); tests/outside/trade_facts_test.cpp
#pragma once
#include <span>

#include "detail/inputs.h"
#include "detail/limit.h"
#include "detail/pattern.h"

namespace sightfall::detail {

/// Delivered detail of one sample, px/m.
double delivered(const CameraConstants& camera, const Seen& seen, const Values& values);

/// Delivered detail of many samples of one camera, px/m.
void delivered(const CameraConstants& camera, std::span<const Seen> seen, const Values& values, std::span<double> out);

/// Low, nominal and high delivered detail: root-sum-square of the logarithms over the inputs; where hardly anything is
/// left the high end is no more than that of the gains themselves, and where nothing is, the most that one input alone
/// gives back.
/// `widest` is the input that moves it most.
struct DeliveredRange {
  Ranged<double> value;
  Input widest = Input::kThreshold;
};
DeliveredRange delivered_range(const CameraConstants& camera, const Seen& seen, const RangedValues& values);

/// Whether low, nominal and high of delivered_range() are no less than `level`, px/m, in a part of its time.
Ranged<bool> delivers(const CameraConstants& camera, const Seen& seen, const RangedValues& values, double level);

/// The factor whose removal alone raises the delivered detail most.
Limit limit_of(const CameraConstants& camera, const Seen& seen, const Values& values);

/// Delivered detail with one factor taken away (kNone: as it is).
double delivered_without(Limit factor, const CameraConstants& camera, const Seen& seen, const Values& values);

}  // namespace sightfall::detail
