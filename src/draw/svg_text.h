// SPDX-License-Identifier: GPL-3.0-or-later
// What is done to an SVG file's text after it is drawn.
//   Checked  svg_text_test.cpp
#pragma once
#include <string>

namespace sightfall::draw {

/// Some ids are a word and a number that the drawing library counts over the whole process; here they are counted from
/// one, so that the same drawing gives the same bytes.
std::string with_counted_ids(const std::string& svg);

/// The file with a title and a description for those who hear it or search it.
std::string with_words(const std::string& svg, const std::string& title, const std::string& description);

}  // namespace sightfall::draw
