// SPDX-License-Identifier: GPL-3.0-or-later
// A command line to a verb and what was given with it.
//   Library  CLI11, only in parse.cpp
//   Checked  parse_test.cpp; tests/case
#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "cli/options.h"

namespace sightfall::cli {

/// The options of one call by name.
class Given {
 public:
  void set(std::string_view name, std::vector<std::string> values) { values_[std::string(name)] = std::move(values); }

  bool has(std::string_view name) const { return values_.count(std::string(name)) > 0; }
  /// The text of an option that was given.
  const std::string& text(std::string_view name) const { return values_.at(std::string(name)).front(); }
  std::string text_or(std::string_view name, std::string_view otherwise) const {
    return has(name) ? text(name) : std::string(otherwise);
  }
  std::optional<double> number(std::string_view name) const;
  std::vector<double> numbers(std::string_view name) const;
  std::vector<std::string> names(std::string_view name) const;

 private:
  std::map<std::string, std::vector<std::string>> values_;
};

/// What to run, or text to print with exit code 0 (help, version).
struct Request {
  const Verb* verb = nullptr;
  Given given;
  std::string print;
};

/// An error says what was found and what is allowed.
Result<Request> parse(int argc, const char* const* argv);

/// Every verb and option as Markdown: docs/commands.md.
std::string commands_manual();

}  // namespace sightfall::cli
