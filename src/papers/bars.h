// SPDX-License-Identifier: GPL-3.0-or-later
// Bars that show on the spot what a level asks for: how wide they are, and a chart of them at true size.
//   Model    docs/models.md section 6: delivered detail d px/m is nu_ref d cycles/m resolved, nu_ref the reference
//            camera's cycles/px (0.4546 at the usual least contrast). A cycle is a dark and a bright bar, so a bar is
//            1 / (2 nu_ref d) wide, near 1.1 / d; and seven times as long as wide, as in the noise test
//   Limits   printed bars stand out more than a face does: they hold lens, focus, pixels and movement against the
//            promise, not the subject's contrast, and printers' inks differ in infrared
//   Checked  bars_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "draw/document.h"
#include "need/project.h"

namespace sightfall::papers {

/// Of one bar, as wide as the gap beside it.
Length bar_width(PixelDensity asked, const need::Project& project);

/// `4.4 mm`
std::string bar_words(PixelDensity asked, const need::Project& project);

/// A level that tests ask for.
struct AskedLevel {
  std::string name;
  PixelDensity least;
};

/// Pages with a pattern of each level at true size, and strips to cut for those that no page holds.
void add_bar_chart(const need::Project& project, std::vector<AskedLevel> levels, draw::PaperSize paper,
                   std::vector<draw::Block>& blocks);

/// What somebody looks for in a picture at so much detail, in plain words of our own.
std::string look_for_words(PixelDensity asked, need::Subject subject);

}  // namespace sightfall::papers
