// SPDX-License-Identifier: GPL-3.0-or-later
// JSON text to a tree of values and back.
//   Library  nlohmann/json reads the text, only in json_parse.cpp
//   Limits   kMostValues values, kDeepest levels, numbers that a double holds, valid UTF-8
//   Checked  json_test.cpp
#pragma once
#include <concepts>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>
#include <vector>

#include "base/result.h"

namespace sightfall::file {

inline constexpr size_t kMostValues = 10'000'000;
inline constexpr size_t kDeepest = 32;

struct Value;
struct Member;
using List = std::vector<Value>;
/// Members in the order of the text; a name may stand twice, which the reader of the object refuses.
using Object = std::vector<Member>;

/// One JSON value. Null also stands for a field that is not there.
struct Value {
  Value() = default;
  template <class T>
  requires std::is_arithmetic_v<T> &&(!std::same_as<T, bool>)Value(T number) : is{static_cast<double>(number)} {}
  Value(bool flag) : is{flag} {}
  Value(const char* text) : is{std::string(text)} {}
  Value(std::string_view text) : is{std::string(text)} {}
  Value(std::string text) : is{std::move(text)} {}
  Value(List list) : is{std::move(list)} {}
  Value(Object object) : is{std::move(object)} {}

  bool null() const { return std::holds_alternative<std::nullptr_t>(is); }
  template <class T>
  const T* as() const {
    return std::get_if<T>(&is);
  }
  /// The value as T, which the caller knows it to be.
  template <class T>
  const T& get() const {
    return std::get<T>(is);
  }

  std::variant<std::nullptr_t, bool, double, std::string, List, Object> is = nullptr;
};

struct Member {
  std::string name;
  Value value;
};

bool operator==(const Value& a, const Value& b);
bool operator==(const Member& a, const Member& b);

/// The tree of a text, or what is wrong with it, with line and column.
Result<Value> parse_json(std::string_view text, const std::string& file_name);

/// The text of a tree: short objects and lists of numbers on one line, one object of a list to a line or block.
std::string print_json(const Value& value);

/// A number as JSON writes it, with the fewest digits that read back as the same number.
std::string print_number(double number);

/// A byte of a text as JSON writes it: itself, or an escape.
std::string print_character(char c);

/// A text as JSON writes it, in quotes.
std::string print_text(std::string_view text);

}  // namespace sightfall::file
