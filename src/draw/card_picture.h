// SPDX-License-Identifier: GPL-3.0-or-later
// The picture of a range card: detail against distance by day and by night, each with its 90 % range as a band, with
// the levels, and where infrared burns out.
//   In/Out   a card and its curve -> an SVG and a PNG file's bytes, from one drawing
//   Checked  card_picture_test.cpp: the same bytes each time, words present, lines where they belong
#pragma once
#include <vector>

#include "base/result.h"
#include "card/card.h"
#include "draw/canvas.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

/// What is drawn; all of it must outlive the call.
struct CardPicture {
  const card::CardRequest* request = nullptr;
  const card::RangeCard* card = nullptr;
  const std::vector<card::Mark>* curve = nullptr;
};

/// Where a distance and a density lie on the page, both axes by their logarithm.
PagePoint chart_point(Length distance, PixelDensity density);

Result<PlanPictures> draw_card(const CardPicture& picture);

}  // namespace sightfall::draw
