// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/shape.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "file/utf8.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

using Tell = std::function<void(const std::string& inside, std::string text)>;

bool number_fits(const Value& value, const Shape& shape) {
  const auto* number = value.as<double>();
  if (number == nullptr || !std::isfinite(*number)) return false;
  if (shape.type == Shape::Type::kWhole && std::floor(*number) != *number) return false;
  return *number >= shape.lowest && *number <= shape.highest;
}

/// Characters (code points) of valid UTF-8.
size_t characters(std::string_view text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

bool shows(std::string_view text, bool lines) {
  while (!text.empty()) {
    const size_t length = character_length(text);
    if (length == 0) return false;
    const std::string_view character = text.substr(0, length);
    if (is_control(character) && !(lines && (character == "\n" || character == "\t"))) return false;
    text.remove_prefix(length);
  }
  return true;
}

bool text_fits(const Value& value, const Shape& shape) {
  const auto* text = value.as<std::string>();
  if (text == nullptr) return false;
  if (!shows(*text, shape.lines)) return false;
  const bool blank = std::all_of(text->begin(), text->end(), [](char c) { return c == ' '; });
  const size_t length = characters(*text);
  return length >= shape.least && length <= shape.most && !(blank && shape.least > 0);
}

bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Digits in groups of the given lengths with a mark between them.
bool digits_fit(const Value& value, std::initializer_list<size_t> groups, char mark) {
  const auto* text = value.as<std::string>();
  if (text == nullptr) return false;
  std::string_view rest = *text;
  for (const size_t length : groups) {
    if (rest.data() != text->data() && !rest.starts_with(mark)) return false;
    if (rest.data() != text->data()) rest.remove_prefix(1);
    if (rest.size() < length || !all_digits(rest.substr(0, length))) return false;
    rest.remove_prefix(length);
  }
  return rest.empty();
}

bool within(const std::string& text, size_t from, size_t length, double lowest, double highest) {
  const int number = std::stoi(text.substr(from, length));
  return number >= lowest && number <= highest;
}

bool date_fits(const Value& value, const Shape& shape) {
  if (!digits_fit(value, {4, 2, 2}, '-')) return false;
  const auto& text = value.get<std::string>();
  return within(text, 0, 4, shape.lowest, shape.highest) && within(text, 5, 2, 1, 12) && within(text, 8, 2, 1, 31);
}

bool time_fits(const Value& value) {
  if (!digits_fit(value, {2, 2}, ':')) return false;
  const auto& text = value.get<std::string>();
  return within(text, 0, 2, 0, 23) && within(text, 3, 2, 0, 59);
}

bool word_fits(const Value& value, const Shape& shape) {
  const auto* text = value.as<std::string>();
  return text != nullptr && std::find(shape.words.begin(), shape.words.end(), *text) != shape.words.end();
}

bool point_fits(const Value& value) {
  const auto* list = value.as<List>();
  const Shape coordinate = number_shape(-kFarthest, kFarthest, "m");
  return list != nullptr && list->size() == 2 && number_fits((*list)[0], coordinate) &&
         number_fits((*list)[1], coordinate);
}

bool ends_fit(const Value& value, const Shape& shape) {
  const auto* list = value.as<List>();
  if (list == nullptr) return number_fits(value, shape);
  return list->size() == 2 && number_fits((*list)[0], shape) && number_fits((*list)[1], shape);
}

bool list_fits(const Value& value, const Shape& shape, const Tell& tell) {
  const auto* list = value.as<List>();
  if (list == nullptr || list->size() < shape.least || list->size() > shape.most) {
    tell("", fmt::format("found {}; allowed is {}", found(value), in_words(shape)));
    return false;
  }
  bool all = true;
  for (size_t i = 0; i < list->size(); ++i)
    all &= fits((*list)[i], shape.item[0], [&](const std::string& inside, std::string text) {
      tell(fmt::format("[{}]{}", i, inside), std::move(text));
    });
  return all;
}

bool scalar_fits(const Value& value, const Shape& shape) {
  switch (shape.type) {
    case Shape::Type::kNumber:
    case Shape::Type::kWhole:
      return number_fits(value, shape);
    case Shape::Type::kText:
      return text_fits(value, shape);
    case Shape::Type::kDate:
      return date_fits(value, shape);
    case Shape::Type::kTime:
      return time_fits(value);
    case Shape::Type::kWord:
      return word_fits(value, shape);
    case Shape::Type::kFlag:
      return value.as<bool>() != nullptr;
    case Shape::Type::kPoint:
      return point_fits(value);
    case Shape::Type::kEnds:
      return ends_fit(value, shape);
    case Shape::Type::kList:
      break;
  }
  return false;
}

std::string bounds_in_words(const Shape& shape) {
  if (shape.lowest == shape.highest) return print_number(shape.lowest);
  return fmt::format("from {} to {}{}{}", print_number(shape.lowest), print_number(shape.highest),
                     shape.unit.empty() ? "" : " ", shape.unit);
}

/// The item in the plural, or as it is.
std::string items_in_words(const Shape& item) {
  switch (item.type) {
    case Shape::Type::kNumber:
      return "numbers " + bounds_in_words(item);
    case Shape::Type::kWhole:
      return "whole numbers " + bounds_in_words(item);
    case Shape::Type::kPoint:
      return "points [x, y]";
    case Shape::Type::kText:
      return "texts";
    default:
      return in_words(item) + " each";
  }
}

}  // namespace

Shape number_shape(double lowest, double highest, std::string_view unit) {
  return {.type = Shape::Type::kNumber, .lowest = lowest, .highest = highest, .unit = unit};
}
Shape whole_shape(double lowest, double highest, std::string_view unit) {
  return {.type = Shape::Type::kWhole, .lowest = lowest, .highest = highest, .unit = unit};
}
Shape text_shape(size_t least, size_t most) { return {.type = Shape::Type::kText, .least = least, .most = most}; }
Shape lines_shape(size_t least, size_t most) {
  return {.type = Shape::Type::kText, .least = least, .most = most, .lines = true};
}
Shape date_shape(int first_year, int last_year) {
  return {
      .type = Shape::Type::kDate, .lowest = static_cast<double>(first_year), .highest = static_cast<double>(last_year)};
}
Shape time_shape() { return {.type = Shape::Type::kTime}; }
Shape word_shape(Words words) { return {.type = Shape::Type::kWord, .words = words}; }
Shape flag_shape() { return {.type = Shape::Type::kFlag}; }
Shape point_shape() { return {.type = Shape::Type::kPoint}; }
Shape list_shape(Shape item, size_t least, size_t most) {
  return {.type = Shape::Type::kList, .least = least, .most = most, .item = {std::move(item)}};
}
Shape ends_shape(double lowest, double highest, std::string_view unit) {
  return {.type = Shape::Type::kEnds, .lowest = lowest, .highest = highest, .unit = unit};
}

std::string in_words(const Shape& shape) {
  switch (shape.type) {
    case Shape::Type::kNumber:
      return "a number " + bounds_in_words(shape);
    case Shape::Type::kWhole:
      return (shape.lowest == shape.highest ? "the number " : "a whole number ") + bounds_in_words(shape);
    case Shape::Type::kText:
      return fmt::format("text of {} to {} characters{}", shape.least, shape.most, shape.lines ? "" : " on one line");
    case Shape::Type::kDate:
      return fmt::format("a date \"YYYY-MM-DD\" of the years {} to {}", shape.lowest, shape.highest);
    case Shape::Type::kTime:
      return "a time \"HH:MM\" from 00:00 to 23:59";
    case Shape::Type::kWord:
      return "one of " + listed(shape.words);
    case Shape::Type::kFlag:
      return "true or false";
    case Shape::Type::kPoint:
      return fmt::format("a point [x, y], each from {} to {} m", print_number(-kFarthest), print_number(kFarthest));
    case Shape::Type::kEnds:
      return fmt::format("a number {}, or two such [wide, tele]", bounds_in_words(shape));
    case Shape::Type::kList:
      break;
  }
  const std::string count =
      shape.least == shape.most ? fmt::format("{}", shape.least) : fmt::format("{} to {}", shape.least, shape.most);
  return fmt::format("a list of {} {}", count, items_in_words(shape.item[0]));
}

bool fits(const Value& value, const Shape& shape, const Tell& tell) {
  if (shape.type == Shape::Type::kList) return list_fits(value, shape, tell);
  if (scalar_fits(value, shape)) return true;
  tell("", fmt::format("found {}; allowed is {}", found(value), in_words(shape)));
  return false;
}

}  // namespace sightfall::file
