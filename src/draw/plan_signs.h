// SPDX-License-Identifier: GPL-3.0-or-later
// Where the signs of what hangs and stands close together lie on a plan: each at its place, or beside it with a line to
// it where it would lie over another. At the scale of a plan what hangs on one post shares a spot.
//   Units    page units
//   Checked  plan_signs_test.cpp
#pragma once
#include <vector>

#include "draw/canvas.h"
#include "draw/plan_frame.h"
#include "need/project.h"

namespace sightfall::draw {

class SignRoom {
 public:
  SignRoom(PagePoint low, PagePoint high) : low_{low}, high_{high} {}

  /// Ground that no later sign takes.
  void take(PagePoint middle, double radius) { discs_.push_back({middle, radius}); }
  /// Lines that signs beside their places keep off where they can.
  void keep_off(const std::vector<PagePoint>& line) { lines_.push_back(line); }
  /// Takes a place for a sign: its own when that is free, else one near it. Where there is none it is its own.
  PagePoint settle(PagePoint place, double radius);

 private:
  struct Disc {
    PagePoint middle;
    double radius = 0;
  };
  /// What a sign beside its place may do when there is no better one.
  struct Leave {
    bool on_lines, through_signs;
  };
  bool is_free(PagePoint at, double radius) const;
  bool suits(PagePoint place, PagePoint at, double radius, const Leave& leave) const;

  PagePoint low_, high_;
  std::vector<Disc> discs_;
  std::vector<std::vector<PagePoint>> lines_;
};

/// Mounts keep their places, with the headings of their cameras.
void take_mounts(SignRoom& room, const need::Project& project, const PlanFrame& frame);

/// From where a thing is to its sign, when they are apart.
void draw_sign_leader(Canvas& canvas, PagePoint place, PagePoint at);

}  // namespace sightfall::draw
