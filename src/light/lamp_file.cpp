// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lamp_file.h"

#include "light/lamp_text.h"

namespace sightfall::light {
namespace {

/// Whether a line of the text is the line TILT=, as one of every LM-63 file is.
bool has_tilt(std::string_view text, const std::string& file_name) {
  LampText lines{text, file_name, LampText::Cut::kLines};
  while (const auto line = lines.line())
    if (begins_with_tilt(*line)) return true;
  return false;
}

/// Whether the second and third lines are the type and the symmetry of EULUMDAT.
bool has_symmetry(std::string_view text, const std::string& file_name) {
  LampText lines{text, file_name, LampText::Cut::kLines};
  lines.skip_lines(1);
  lines.whole("", kEulumdatTypes);
  lines.whole("", kEulumdatSymmetries);
  return !lines.failed();
}

}  // namespace

Result<LampFile> parse_lamp(std::string_view text, const std::string& file_name) {
  if (const auto error = too_large(text, file_name)) return tl::make_unexpected(*error);
  if (has_symmetry(text, file_name)) return parse_eulumdat(text, file_name);
  if (has_tilt(text, file_name)) return parse_lm63(text, file_name);
  return failure(
      ErrorKind::kSyntax,
      "is no photometric file; allowed is LM-63, with a line TILT=, or EULUMDAT, whose second and third lines "
      "are its type, 0 to 3, and its symmetry, 0 to 4",
      {file_name, {}, {}});
}

}  // namespace sightfall::light
