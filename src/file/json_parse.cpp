// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "file/json.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

/// Takes the parser's events and builds the tree, within the limits.
class Builder : public nlohmann::json_sax<nlohmann::json> {
 public:
  Value root;
  std::optional<Error> error;
  size_t error_at = 0;

  bool null() override { return put({}); }
  bool boolean(bool flag) override { return put(flag); }
  bool number_integer(number_integer_t number) override { return put(number); }
  bool number_unsigned(number_unsigned_t number) override { return put(number); }
  bool number_float(number_float_t number, const string_t&) override { return put(number); }
  bool string(string_t& text) override { return put(std::move(text)); }
  bool binary(binary_t&) override { return false; }  // only of binary formats
  bool key(string_t& name) override {
    std::get<Object>(open_.back()->is).push_back({std::move(name), {}});
    return true;
  }
  bool start_object(size_t) override { return start(Object{}); }
  bool start_array(size_t) override { return start(List{}); }
  bool end_object() override { return end(); }
  bool end_array() override { return end(); }
  bool parse_error(size_t position, const std::string& token, const nlohmann::detail::exception& e) override {
    error_at = position;
    return stop(ErrorKind::kSyntax, e.id == kNumberOverflow ? overflow(token) : syntax(token, e.what()));
  }

 private:
  static constexpr int kNumberOverflow = 406;

  bool stop(ErrorKind kind, std::string text) {
    error = Error{kind, std::move(text), {}};
    return false;
  }

  static std::string overflow(const std::string& token) {
    return "not JSON that can be read: " + in_quotes(token) + " is too large for a number";
  }
  /// The library says `...: syntax error while parsing value - REASON`; only the reason is of use.
  static std::string syntax(const std::string& token, std::string_view what) {
    constexpr std::string_view kBefore = " - ";
    const size_t reason = what.find(kBefore);
    std::string_view text = reason == std::string_view::npos ? what : what.substr(reason + kBefore.size());
    text = text.substr(0, text.find("; last read"));
    const bool wants_infinity = token == "N" || token == "I" || token == "-I" || token == "-N";
    return fmt::format("not JSON: {}{}{}", text, token.empty() ? "" : "; read " + in_quotes(token),
                       wants_infinity ? "; NaN and Infinity are no numbers here" : "");
  }

  bool put(Value value) { return place(std::move(value)) != nullptr; }

  Value* place(Value value) {
    if (++count_ > kMostValues) {
      stop(ErrorKind::kTooLarge, fmt::format("more than {} values; that many are allowed", kMostValues));
      return nullptr;
    }
    if (open_.empty()) {
      root = std::move(value);
      return &root;
    }
    if (auto* list = std::get_if<List>(&open_.back()->is)) return &list->emplace_back(std::move(value));
    Value& member = std::get<Object>(open_.back()->is).back().value;
    member = std::move(value);
    return &member;
  }

  bool start(Value empty) {
    if (open_.size() >= kDeepest)
      return stop(ErrorKind::kTooLarge, fmt::format("lists and objects stand more than {} deep in one another; that "
                                                    "many are allowed",
                                                    kDeepest));
    Value* value = place(std::move(empty));
    if (value == nullptr) return false;
    open_.push_back(value);
    return true;
  }
  bool end() {
    open_.pop_back();
    return true;
  }

  std::vector<Value*> open_;  // while an inner one is open the outer does not grow, so that pointers hold
  size_t count_ = 0;
};

/// Line and column (in characters) of the last character read.
std::string place_in_words(std::string_view text, size_t read) {
  const std::string_view before = text.substr(0, std::min(read, text.size()));
  const size_t start = before.empty() ? std::string_view::npos : before.substr(0, before.size() - 1).rfind('\n');
  const std::string_view line = start == std::string_view::npos ? before : before.substr(start + 1);
  const auto lines = std::count(before.begin(), before.end() - static_cast<long>(line.size()), '\n');
  const auto column = std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; });
  return fmt::format("line {}, column {}: ", lines + 1, column);
}

}  // namespace

Result<Value> parse_json(std::string_view text, const std::string& file_name) {
  Builder builder;
  if (nlohmann::json::sax_parse(text.begin(), text.end(), &builder)) return std::move(builder.root);
  Error error = std::move(*builder.error);
  if (error.kind == ErrorKind::kSyntax) error.text = place_in_words(text, builder.error_at) + error.text;
  error.where.file = file_name;
  return tl::make_unexpected(std::move(error));
}

}  // namespace sightfall::file
