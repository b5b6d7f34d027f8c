// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include "file/json.h"

namespace sightfall::file {
namespace {

constexpr size_t kWidth = 120;
constexpr size_t kIndent = 2;

bool holds_objects(const List& list) { return !list.empty() && list.front().as<Object>() != nullptr; }

/// The value on one line of at most `width` characters, when that is how it should stand.
bool print_flat(const Value& value, size_t width, std::string& line);

bool print_flat(const List& list, size_t width, std::string& line) {
  if (holds_objects(list)) return false;
  line += '[';
  for (size_t i = 0; i < list.size(); ++i) {
    if (i > 0) line += ", ";
    if (!print_flat(list[i], width, line)) return false;
  }
  line += ']';
  return line.size() <= width;
}

bool print_flat(const Object& object, size_t width, std::string& line) {
  line += "{";
  for (size_t i = 0; i < object.size(); ++i) {
    line += (i > 0 ? ", " : " ") + print_text(object[i].name) + ": ";
    if (!print_flat(object[i].value, width, line)) return false;
  }
  line += object.empty() ? "}" : " }";
  return line.size() <= width;
}

bool print_flat(const Value& value, size_t width, std::string& line) {
  if (const auto* list = value.as<List>()) return print_flat(*list, width, line);
  if (const auto* object = value.as<Object>()) return print_flat(*object, width, line);
  if (value.null())
    line += "null";
  else if (const auto* flag = value.as<bool>())
    line += *flag ? "true" : "false";
  else if (const auto* number = value.as<double>())
    line += print_number(*number);
  else
    line += print_text(value.get<std::string>());
  return line.size() <= width;
}

void print_block(const Value& value, size_t indent, size_t taken, std::string& text);

/// Numbers and points fill the line; anything else has a line of its own.
void print_block(const List& list, size_t indent, std::string& text) {
  const bool fill = !holds_objects(list);
  text += "[\n" + std::string(indent + kIndent, ' ');
  size_t used = indent + kIndent;
  for (size_t i = 0; i < list.size(); ++i) {
    std::string item;
    print_block(list[i], indent + kIndent, 1, item);
    const bool last = i + 1 == list.size();
    if (i > 0 && (!fill || used + 1 + item.size() + (last ? 0 : 1) > kWidth)) {
      text += '\n' + std::string(indent + kIndent, ' ');
      used = indent + kIndent;
    } else if (i > 0) {
      text += ' ';
      ++used;
    }
    text += item;
    used += item.size();
    if (!last) text += ',', ++used;
  }
  text += '\n' + std::string(indent, ' ') + ']';
}

void print_block(const Object& object, size_t indent, std::string& text) {
  text += "{\n";
  for (size_t i = 0; i < object.size(); ++i) {
    const std::string name = print_text(object[i].name) + ": ";
    text += std::string(indent + kIndent, ' ') + name;
    print_block(object[i].value, indent + kIndent, name.size() + 1, text);
    text += i + 1 == object.size() ? "\n" : ",\n";
  }
  text += std::string(indent, ' ') + "}";
}

/// `taken` characters of the line are for what stands before and after the value.
void print_block(const Value& value, size_t indent, size_t taken, std::string& text) {
  const size_t width = kWidth > indent + taken ? kWidth - indent - taken : 0;
  std::string line;
  if (print_flat(value, width, line) || (!value.as<List>() && !value.as<Object>())) {
    text += line;
  } else if (const auto* list = value.as<List>()) {
    print_block(*list, indent, text);
  } else {
    print_block(value.get<Object>(), indent, text);
  }
}

}  // namespace

std::string print_json(const Value& value) {
  std::string text;
  if (const auto* object = value.as<Object>())
    print_block(*object, 0, text);
  else
    print_block(value, 0, 0, text);
  return text + '\n';
}

std::string print_number(double number) {
  if (!std::isfinite(number)) return "null";
  if (number == 0) return "0";
  constexpr double kSmallestFixed = 1e-9, kLargestFixed = 1e15;
  std::array<char, 64> digits{};
  char* const end = digits.data() + digits.size();
  const bool fixed = std::abs(number) >= kSmallestFixed && std::abs(number) < kLargestFixed;
  const auto written = fixed ? std::to_chars(digits.data(), end, number, std::chars_format::fixed)
                             : std::to_chars(digits.data(), end, number);
  return {digits.data(), written.ptr};
}

std::string print_character(char c) {
  const auto code = static_cast<unsigned char>(c);
  if (c == '"' || c == '\\') return {'\\', c};
  if (c == '\n') return "\\n";
  if (c == '\t') return "\\t";
  return code < 0x20 || code == 0x7F ? fmt::format("\\u{:04x}", static_cast<unsigned>(code)) : std::string(1, c);
}

std::string print_text(std::string_view text) {
  std::string result = "\"";
  for (const char c : text) result += print_character(c);
  return result + '"';
}

const Value* member_of(const Value& object, std::string_view name) {
  const auto* members = object.as<Object>();
  if (members == nullptr) return nullptr;
  const auto found = std::find_if(members->begin(), members->end(), [&](const Member& m) { return m.name == name; });
  return found == members->end() ? nullptr : &found->value;
}

Value* member_of(Value& object, std::string_view name) {
  return const_cast<Value*>(member_of(std::as_const(object), name));  // NOLINT(*-const-cast): the object is not const
}

std::string member_text(const Value& object, std::string_view name) {
  const Value* value = member_of(object, name);
  const auto* text = value == nullptr ? nullptr : value->as<std::string>();
  return text == nullptr ? std::string{} : *text;
}

bool operator==(const Value& a, const Value& b) { return a.is == b.is; }
bool operator==(const Member& a, const Member& b) { return a.name == b.name && a.value == b.value; }

}  // namespace sightfall::file
