// SPDX-License-Identifier: GPL-3.0-or-later
// The text of a photometric file, cut into lines and numbers.
//   Errors   the first one is kept and told at the end; after it every number reads as the least allowed
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace sightfall::light {

struct Allowed {
  double least = 0, most = 0;
};

/// The text of a lamp from its start to its end.
class LampText {
 public:
  enum class Cut { kWords, kLines };  ///< whether numbers end at blanks and commas or fill a line each

  LampText(std::string_view text, std::string file, Cut cut);

  /// The next line without blanks at its ends; nothing at the end of the text.
  std::optional<std::string_view> line();
  void skip_lines(int count);

  double number(const std::string& field, Allowed allowed);
  int whole(const std::string& field, Allowed allowed);
  /// Numbers that rise by at least kLeastStep. The count is checked before anything is kept.
  std::vector<double> rising(const std::string& field, int count, Allowed allowed);
  std::vector<double> list(const std::string& field, size_t count, Allowed allowed);
  /// After the last value only what is no number may follow.
  void expect_end();

  void refuse(ErrorKind kind, const std::string& field, std::string text);
  bool failed() const { return error_.has_value(); }
  tl::unexpected<Error> error() const { return tl::make_unexpected(*error_); }

 private:
  std::optional<std::string_view> word();
  bool holds(size_t count, const std::string& field);

  std::string_view rest_;
  std::string file_;
  Cut cut_;
  int line_ = 0;  ///< of what was read last, from 1
  bool at_line_start_ = true;
  std::optional<Error> error_;
};

/// Degrees by which angles of a list must rise at least.
inline constexpr double kLeastStep = 1e-6;

/// At most 40 characters of what was found, in quotes, fit for any terminal.
std::string quoted(std::string_view found);

/// A name of the file in UTF-8, also where the file is in Latin-1, without characters that command a terminal.
std::string name_of(std::string_view text);

/// Whether a line is the line of LM-63 after which its numbers come: TILT= and what it says of tilt.
bool begins_with_tilt(std::string_view line);

/// Line 2 and line 3 of EULUMDAT, by which it is told.
inline constexpr Allowed kEulumdatTypes{0, 3}, kEulumdatSymmetries{0, 4};

/// Nothing, or why a text of that size is refused.
std::optional<Error> too_large(std::string_view text, const std::string& file);

}  // namespace sightfall::light
