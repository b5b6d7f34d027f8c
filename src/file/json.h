// SPDX-License-Identifier: GPL-3.0-or-later
// JSON text to a tree of values and back.
//   Library  nlohmann/json reads the text, only in json_parse.cpp
//   Limits   kMostValues values, kDeepest levels, numbers that a double holds, valid UTF-8
//   Checked  json_test.cpp
#pragma once
#include <concepts>
#include <string>
#include <string_view>
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
  Value();
  Value(bool flag);
  Value(double number);
  Value(const char* text);
  Value(std::string_view text);
  Value(std::string text);
  Value(List list);
  Value(Object object);
  template <std::integral T>
  Value(T number) : Value(static_cast<double>(number)) {}
  Value(const Value& other);
  Value(Value&& other) noexcept;
  Value& operator=(const Value& other);
  Value& operator=(Value&& other) noexcept;
  ~Value();

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

  std::variant<std::nullptr_t, bool, double, std::string, List, Object> is;
};

struct Member {
  std::string name;
  Value value;
};

// Here, where the members of an object are complete.
inline Value::Value() = default;
inline Value::Value(bool flag) : is{flag} {}
inline Value::Value(double number) : is{number} {}
inline Value::Value(const char* text) : is{std::string(text)} {}
inline Value::Value(std::string_view text) : is{std::string(text)} {}
inline Value::Value(std::string text) : is{std::move(text)} {}
inline Value::Value(List list) : is{std::move(list)} {}
inline Value::Value(Object object) : is{std::move(object)} {}
inline Value::Value(const Value&) = default;
inline Value::Value(Value&&) noexcept = default;
inline Value& Value::operator=(const Value&) = default;
inline Value& Value::operator=(Value&&) noexcept = default;
inline Value::~Value() = default;

bool operator==(const Value& a, const Value& b);
bool operator==(const Member& a, const Member& b);

/// The member of that name of an object, the first when it stands twice; null when there is none or it is no object.
const Value* member_of(const Value& object, std::string_view name);
Value* member_of(Value& object, std::string_view name);
/// The text of such a member; empty when there is none or it is no text.
std::string member_text(const Value& object, std::string_view name);

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
