// SPDX-License-Identifier: GPL-3.0-or-later
// A command line to a verb and what was given with it.
//   Form     sightfall VERB [ARGUMENT ...] [--option [VALUE] ...], in any order after the verb; `--option=VALUE` too;
//            after `--` everything is an argument. An option takes the word after it unless that begins with two dashes
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

  bool has(std::string_view name) const { return values_.contains(std::string(name)); }
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

/// What to run, or what to print instead.
struct Request {
  const Verb* verb = nullptr;
  Given given;
  std::string print;
  int status = 0;  ///< to end with after printing
};

/// What is wrong with an option.
Error request_error(std::string_view option, std::string text);

/// Every error of the line, each saying what was found and what is allowed. A line without a verb asks for the help.
Checked<Request> parse(const std::vector<std::string>& words);

}  // namespace sightfall::cli
