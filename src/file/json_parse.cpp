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
    const bool overflow = e.id == kNumberOverflow;
    return stop(ErrorKind::kSyntax, overflow ? in_quotes(token) + " is too large for a number" : reason(e.what()));
  }

 private:
  static constexpr int kNumberOverflow = 406;

  bool stop(ErrorKind kind, std::string text) {
    error = Error{kind, std::move(text), {}};
    return false;
  }

  /// The library says `...: syntax error while parsing value - REASON; last read ...`; only the reason is of use.
  static std::string reason(std::string_view what) {
    constexpr std::string_view kBefore = " - ";
    const size_t start = what.find(kBefore);
    const std::string_view text = start == std::string_view::npos ? what : what.substr(start + kBefore.size());
    const size_t read = text.find("; last read"), next = text.find("; expected");
    if (text.starts_with("invalid literal"))
      return "neither a number, a text in quotes, true, false nor null (NaN and Infinity are no numbers here)";
    if (read == std::string_view::npos) return std::string(text);
    return std::string(text.substr(0, read)) + (next == std::string_view::npos ? "" : std::string(text.substr(next)));
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

/// The line that the last character read stands in, up to and with that character.
std::string_view line_read(std::string_view text, size_t read) {
  const std::string_view before = text.substr(0, std::min(read, text.size()));
  const size_t start = before.empty() ? std::string_view::npos : before.substr(0, before.size() - 1).rfind('\n');
  return start == std::string_view::npos ? before : before.substr(start + 1);
}

std::string place_in_words(std::string_view text, std::string_view line) {
  const auto lines = std::count(text.data(), line.data(), '\n');
  const auto characters = std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; });
  return fmt::format("line {}, column {}", lines + 1, std::max<long>(characters, 1));
}

/// A little of the text on both sides of the end of `line`.
std::string excerpt(std::string_view text, std::string_view line) {
  constexpr size_t kBefore = 20, kAfter = 12;
  const size_t end = static_cast<size_t>(line.data() - text.data()) + line.size();
  const size_t start = end - std::min(line.size(), kBefore);
  const std::string_view around = text.substr(start, end - start + kAfter);
  return in_quotes(around.substr(0, around.find_first_of("\r\n", end - start)));
}

}  // namespace

Result<Value> parse_json(std::string_view text, const std::string& file_name) {
  Builder builder;
  if (nlohmann::json::sax_parse(text.begin(), text.end(), &builder)) return std::move(builder.root);
  Error error = std::move(*builder.error);
  if (error.kind == ErrorKind::kSyntax) {
    const std::string_view line = line_read(text, builder.error_at);
    error.text = fmt::format("{}, near {}: not JSON: {}", place_in_words(text, line), excerpt(text, line), error.text);
  }
  error.where.file = file_name;
  return tl::make_unexpected(std::move(error));
}

}  // namespace sightfall::file
