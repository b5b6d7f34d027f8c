// SPDX-License-Identifier: GPL-3.0-or-later
// The contact sheet of a walk: a row a mark, with the whole picture, the subject at one point a pixel, and the figures.
//   Checked  contact_sheet_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "walk/marks.h"

namespace sightfall::draw {

/// One mark's pictures: the whole one, made small by the caller or not, and the piece around what is judged.
struct ContactRow {
  const walk::Mark* mark = nullptr;
  walk::Picture small, piece;
  std::vector<std::string> figures;  ///< lines of text beside them, the first one bold
};

inline constexpr int kSmallColumns = 480;  ///< of the whole picture
inline constexpr int kPieceColumns = 320, kPieceRows = 270;

/// PNG bytes of the sheet.
Result<std::string> contact_sheet(const std::string& title, const std::string& under_it,
                                  const std::vector<ContactRow>& rows);

/// The picture made smaller to this many columns, each point the mean of what it stands for; as it is when it has no
/// more.
walk::Picture smaller(const walk::Picture& picture, int columns);

}  // namespace sightfall::draw
