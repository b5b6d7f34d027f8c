// SPDX-License-Identifier: GPL-3.0-or-later
// The one description of every verb and option: the parser, --help, the shell completion and docs/commands.md come of
// it.
#pragma once
#include <optional>
#include <string_view>
#include <vector>

namespace sightfall::cli {

class Given;

enum class OptionKind {
  kFlag,  ///< given or not
  kText,
  kNumber,
  kNumbers,  ///< a list with commas
  kNames,    ///< may be given several times
  kFile,
  kFolder,
};

struct Option {
  std::string_view name;  ///< with its dashes; an argument without them
  OptionKind kind = OptionKind::kText;
  std::string_view value;  ///< what stands for the value in the help, such as MM
  std::string_view meaning;
  std::optional<double> lowest = {}, highest = {};  ///< of a number
  std::string_view otherwise = {};                  ///< what is taken when it is not given, in words
  bool required = false;                            ///< of an argument or an option
};

struct Verb {
  std::string_view name;  ///< one word or two, such as `import terrain`
  std::string_view meaning;
  std::vector<Option> arguments;  ///< in their order, without dashes
  std::vector<Option> options;
  std::string_view example;  ///< what follows `sightfall`
  std::string_view status;   ///< what its exit status says
  int (*run)(const Given& given);
};

/// Every verb, in the order of the help.
const std::vector<Verb>& verbs();

}  // namespace sightfall::cli
