// SPDX-License-Identifier: GPL-3.0-or-later
// What is put into a PDF file's bytes after it is drawn, none of which the drawing library writes (1.16): that its
// structure may be relied on, what language it is in, that its title is to be shown, and what each figure shows for
// those who hear the page.
//   Source   ISO 32000-1, 7.5.4 (cross-reference table), 7.7.2 (catalog), 7.9.2.2 (text strings), 12.2 (viewer
//            preferences), 14.7.1 (mark information), 14.9.2 (language), 14.9.3 (alternate descriptions)
//   Limits   objects have to lie open in the file and be listed in one table, as the library writes them; another file
//            stays as it is
//   Checked  pdf_text_test.cpp; tests/papers, where another program reads it
#pragma once
#include <string>
#include <vector>

namespace sightfall::draw {

/// The file with the new entries, and its cross-references still true. `figures`: what each `Figure` of its structure
/// shows, in the order in which they were drawn; none is told when there are not as many.
std::string with_entries_for_readers(const std::string& pdf, const std::vector<std::string>& figures);

/// A text as a PDF file has it: in UTF-16, its bytes as hexadecimal digits.
std::string pdf_string(const std::string& utf8);

}  // namespace sightfall::draw
