// SPDX-License-Identifier: GPL-3.0-or-later
// How far each level reaches, by day and by night, as bars along distance: the range card in the space of a paragraph.
//   Checked  reach_strip_test.cpp
#pragma once
#include "card/card.h"
#include "draw/document.h"
#include "need/project.h"

namespace sightfall::papers {

/// Levels of the first table, one row each; the distance by its logarithm from 1 to 200 m.
draw::Figure reach_strip(const card::RangeCard& card, need::Units units);

/// Where on the strip a distance lies, page units from its left.
double strip_at(Length distance);

}  // namespace sightfall::papers
