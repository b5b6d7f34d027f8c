// SPDX-License-Identifier: GPL-3.0-or-later
// Names of scripts that are written from right to left, within lines of ours that are written from left to right.
//   Model    a mark of direction (U+200E) between such letters and a number behind them; otherwise the number counts
//            as the name's and is set on its other side (Unicode Standard Annex 9, rules W2 and I1)
//   Limits   a number that is part of such a name is set behind it as well; letters are told by the blocks that the
//            annex's data (DerivedBidiClass.txt) sets aside for these scripts
//   Checked  direction_test.cpp
#pragma once
#include <string>

namespace sightfall::draw {

/// The text, UTF-8, with marks where a number follows letters that run the other way.
std::string kept_in_order(const std::string& text);

}  // namespace sightfall::draw
