// SPDX-License-Identifier: GPL-3.0-or-later
// What is done to a PDF file's bytes after it is drawn: it says that its structure may be relied on, what language it
// is in, and that its title is to be shown, none of which the drawing library writes (1.16).
//   Source   ISO 32000-1, 7.7.2 (catalog), 14.7.1 (mark information), 14.9.2 (language), 12.2 (viewer preferences)
//   Limits   the catalog has to be the last object, as the library writes it; another file stays as it is
//   Checked  pdf_text_test.cpp; tests/papers, where another program reads it
#pragma once
#include <string>

namespace sightfall::draw {

/// The file with the catalog's new entries, and its cross-references still true.
std::string with_catalog_entries(const std::string& pdf);

}  // namespace sightfall::draw
