// SPDX-License-Identifier: GPL-3.0-or-later
// What a value must look like: its type and its bounds. From it come the check, its error, and the schema.
#pragma once
#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "file/json.h"

namespace sightfall::file {

/// Coordinates lie within this many metres of the site's origin.
inline constexpr double kFarthest = 100e3;
/// Characters in a name.
inline constexpr size_t kLongestName = 80;

using Words = std::span<const std::string_view>;

struct Shape {
  enum class Type {
    kNumber,
    kWhole,
    kText,
    kDate,  ///< text "YYYY-MM-DD"
    kTime,  ///< text "HH:MM"
    kWord,  ///< one of a few words
    kFlag,
    kPoint,  ///< [x, y]
    kList,
    kEnds,  ///< one number, or [wide, tele]
  };
  Type type = Type::kFlag;
  double lowest = 0, highest = 0;  ///< numbers; each number of ends
  std::string_view unit = {};      ///< for display
  size_t least = 0, most = 0;      ///< characters of a text, items of a list
  bool lines = false;              ///< a text that may run over several lines
  Words words = {};
  std::vector<Shape> item = {};  ///< one, for a list
};

Shape number_shape(double lowest, double highest, std::string_view unit);
Shape whole_shape(double lowest, double highest, std::string_view unit);
Shape text_shape(size_t least, size_t most);
Shape lines_shape(size_t least, size_t most);
Shape date_shape(int first_year, int last_year);
Shape time_shape();
Shape word_shape(Words words);
Shape flag_shape();
Shape point_shape();
Shape list_shape(Shape item, size_t least, size_t most);
Shape ends_shape(double lowest, double highest, std::string_view unit);

/// Such as `a number from 0 to 60 m` or `a list of 3 to 100000 points [x, y]`.
std::string in_words(const Shape& shape);

/// Calls `tell` for each thing that does not fit, with where it is inside the value (such as `[3]`) and what is wrong.
/// Whether everything fits.
bool fits(const Value& value, const Shape& shape,
          const std::function<void(const std::string& inside, std::string text)>& tell);

}  // namespace sightfall::file
