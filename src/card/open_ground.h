// SPDX-License-Identifier: GPL-3.0-or-later
// A camera over flat open ground in one light, and what it has of a face that walks at it.
//   Model    card.h says how the distance runs; the ground is the table's usual one
//   Checked  card_test.cpp
#pragma once
#include <string>
#include <vector>

#include "card/card.h"
#include "need/frame.h"
#include "need/illumination.h"
#include "need/view.h"

namespace sightfall::card {

class OpenGround {
 public:
  OpenGround(const CardRequest& request, const site::Condition& condition);
  /// The same of another subject.
  OpenGround(const CardRequest& request, const site::Condition& condition, need::Need need);
  OpenGround(const OpenGround&) = delete;
  OpenGround& operator=(const OpenGround&) = delete;

  need::SampleView view_at(double distance) const;
  double delivered_at(double distance) const;
  Seeing seeing_at(double distance) const;
  detail::Signal signal_at(double distance) const;

  /// Fixes the shutter, or whether the infrared's power adapts.
  void fix_shutter(Time shutter);
  void set_adaptive(bool adaptive);

  const need::Station& station() const { return station_; }
  const detail::Values& values() const { return values_.nominal(); }
  const detail::RangedInputs& inputs() const { return values_.inputs(); }
  const need::Lighting& lighting() const { return lighting_; }
  Angle tilt() const { return tilt_; }

 private:
  void take_inputs();

  const CardRequest& request_;
  need::Need need_;
  need::Project project_;
  site::Scene scene_;
  need::Lighting lighting_;
  Angle tilt_;
  double face_height_ = 0;
  need::Station station_;
  detail::RangedValues values_;
};

/// The conditions of a card: ample light, and a night without any but the camera's own.
site::Condition card_day();
site::Condition card_night();

}  // namespace sightfall::card
