// SPDX-License-Identifier: GPL-3.0-or-later
// Text laid out in lines and columns: paragraphs, tables and lists that fit the terminal, without trailing blanks.
//   Checked  layout_test.cpp
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "cli/terminal.h"

namespace sightfall::cli {

using Row = std::vector<std::string>;

/// Width in columns of UTF-8 text (one a code point).
size_t columns_of(std::string_view text);

/// The text broken into lines of at most `width` columns, and where it has a line end; a longer word has a line of its
/// own.
std::vector<std::string> broken(std::string_view text, size_t width);

/// A paragraph behind an indent.
std::string wrapped(std::string_view text, size_t indent, size_t width = terminal_width());

/// The rows of a table, each with its line ends: columns lined up, two blanks between them. Where it is wider than
/// `width`, the first column is broken into lines. `right` are the columns set flush right.
std::vector<std::string> table_rows(const std::vector<Row>& rows, const std::vector<size_t>& right = {},
                                    size_t width = terminal_width());

/// The same as one text.
std::string table(const std::vector<Row>& rows, const std::vector<size_t>& right = {});

/// Terms with what they mean beside them, broken into lines behind the terms.
std::string described_list(const std::vector<Row>& rows, size_t width = terminal_width());

}  // namespace sightfall::cli
