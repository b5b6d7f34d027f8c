// SPDX-License-Identifier: GPL-3.0-or-later
// Reads plates by comparing each cell with every character that may stand there.
//   Model    the character whose drawing correlates best with the cell: for white noise of an even strength nobody who
//            knows the drawings can do better, so it bounds what noise leaves to be read; it has no threshold of
//            contrast
//   Checked  by the experiment: every clean plate is read
#pragma once
#include <map>
#include <string>
#include <vector>

#include "plate_cells.h"

namespace sightfall::reading {

class PlateMatcher {
 public:
  PlateMatcher();
  std::string read(const Cells& cells) const;

 private:
  std::map<char, std::vector<double>> drawings_;  // of mean 0 and length 1
};

}  // namespace sightfall::reading
