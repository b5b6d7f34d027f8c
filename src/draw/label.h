// SPDX-License-Identifier: GPL-3.0-or-later
// Where words go on a crowded sheet: each takes the first of its places that is free, the most important first; one
// that finds none is left out.
//   Checked  label_test.cpp: no two overlap, order of importance, turned boxes by pencil
#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "draw/canvas.h"
#include "draw/shape.h"

namespace sightfall::draw {

/// A rectangle turned clockwise (on the page) around its middle.
struct TurnedBox {
  PagePoint middle;
  double width = 0, height = 0;
  double turn = 0;  ///< radians
};

bool overlap(const TurnedBox& a, const TurnedBox& b);

/// Along the straight line between two points, so wide.
TurnedBox box_along(PagePoint from, PagePoint to, double width);

/// Along each piece of the lines.
std::vector<TurnedBox> boxes_along(const Shape& lines, double width);

/// A text with its place, as drawn.
struct PlacedLabel {
  std::string text;
  Lettering lettering;
  TurnedBox box;
  std::vector<PagePoint> leader;  ///< a hairline from the thing to its words when they stand apart; may be empty
};

/// The room on a page. What is taken stays free of labels; ground that a solid covers is used when no other is left,
/// and what is crowded, such as a line, only then when that is taken too.
class LabelRoom {
 public:
  /// `covered` says where the ground is covered by a solid.
  LabelRoom(PagePoint low, PagePoint high, std::function<bool(PagePoint)> covered)
      : low_{low}, high_{high}, covered_{std::move(covered)} {}

  void take(const TurnedBox& box) { taken_.push_back(box); }
  void crowd(const TurnedBox& box);
  /// The lines, each so wide.
  void crowd(const Shape& lines, double width);
  bool is_free(const TurnedBox& box) const;
  bool is_covered(const TurnedBox& box) const;
  bool is_crowded(const TurnedBox& box) const;

  /// Beside the first of the points where there is room: close by in sixteen directions, then farther off with a
  /// leader, through no words and no sign; where that cannot be, through them if it may `strike`. True when it found a
  /// place.
  bool place_beside(const std::vector<PagePoint>& points, double clearance, const std::string& text,
                    const Lettering& lettering, bool strike = true);
  bool place_beside(PagePoint point, double clearance, const std::string& text, const Lettering& lettering) {
    return place_beside(std::vector{point}, clearance, text, lettering);
  }
  /// As near to the point as there is room, however far that is, with a leader; over what is there when the page is
  /// full.
  void place_in_any_case(PagePoint point, double clearance, const std::string& text, const Lettering& lettering);
  /// At exactly this place, if it is free.
  bool place_at(const TurnedBox& box, const std::string& text, const Lettering& lettering);

  const std::vector<PlacedLabel>& placed() const { return placed_; }

 private:
  /// What words may lie on, or their leader go through, when there is no better place.
  struct Terms {
    bool cover, crowd, strike;
  };
  struct Words {
    const std::string& text;
    const Lettering& lettering;
    TextSize size;
  };
  bool place_around(PagePoint point, double clearance, double distance, const Words& words, const Terms& accept);
  bool suits(PagePoint point, const TurnedBox& box, const std::vector<PagePoint>& leader, const Terms& accept) const;
  /// Whether a leader would go through what is taken, other than the sign that it starts at.
  bool strikes(PagePoint point, const std::vector<PagePoint>& leader) const;

  PagePoint low_, high_;
  std::function<bool(PagePoint)> covered_;
  std::vector<TurnedBox> taken_, crowded_;
  std::vector<PlacedLabel> placed_;
};

}  // namespace sightfall::draw
