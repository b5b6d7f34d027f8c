// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/help.h"

#include <fmt/format.h>

#include "cli/layout.h"
#include "file/json.h"

namespace sightfall::cli {
namespace {

constexpr std::string_view kPurpose =
    "Sightfall: whether a camera will show the face or the plate at the place that matters, before it is bought and "
    "mounted.";
constexpr std::string_view kHelpMeaning = "print this help";

bool numeric(const Option& option) { return option.kind == OptionKind::kNumber || option.kind == OptionKind::kNumbers; }

/// The option's meaning with its range and what is taken without it.
std::string described(const Option& option) {
  std::string text{option.meaning};
  if (numeric(option)) text += fmt::format(" ({})", bounds_words(option));
  if (!option.otherwise.empty()) text += fmt::format("; otherwise {}", option.otherwise);
  if (option.required) text += "; needed";
  return text;
}

/// An option as it is typed: `--focal MM`, `SITE`.
std::string typed(const Option& option) {
  if (option.value.empty() || option.value == option.name) return std::string(option.name);
  return fmt::format("{} {}", option.name, option.value);
}

std::string usage(const Verb& verb) {
  std::string line = fmt::format("sightfall {}", verb.name);
  for (const Option& one : verb.arguments)
    line += one.required ? fmt::format(" {}", one.name) : fmt::format(" [{}]", one.name);
  for (const Option& one : verb.options)
    if (one.required) line += " " + typed(one);
  return line + (verb.options.empty() ? "" : " [OPTION ...]");
}

std::string verb_list(std::string_view first_word) {
  std::vector<std::vector<std::string>> rows;
  for (const Verb& verb : verbs())
    if (verb.name.substr(0, first_word.size()) == first_word)
      rows.push_back({std::string(verb.name), std::string(verb.meaning)});
  return described_list(rows);
}

}  // namespace

std::string bounds_words(const Option& option) {
  if (option.lowest && option.highest)
    return file::print_number(*option.lowest) + " to " + file::print_number(*option.highest);
  if (option.lowest) return file::print_number(*option.lowest) + " or more";
  return "any number";
}

std::string program_help() {
  return wrapped(kPurpose, 0) + "\nUsage: sightfall VERB ...\n\n" + verb_list("") + "\n" +
         described_list({{"VERB --help", "what a verb takes"},
                         {"--help", std::string(kHelpMeaning)},
                         {"--version", "print the version"}}) +
         "\nTo begin with:\n  sightfall " + std::string(verbs().front().example) + "\n";
}

std::string verb_help(const Verb& verb) {
  std::vector<std::vector<std::string>> rows;
  for (const auto* options : {&verb.arguments, &verb.options})
    for (const Option& option : *options) rows.push_back({typed(option), described(option)});
  rows.push_back({"--help", std::string(kHelpMeaning)});
  return wrapped(fmt::format("{}.", verb.meaning), 0) + fmt::format("\nUsage: {}\n\n", usage(verb)) +
         described_list(rows) + fmt::format("\nExample: sightfall {}\n", verb.example) +
         wrapped(fmt::format("Exit status: {}.", verb.status), 0);
}

std::string group_help(std::string_view word) {
  return fmt::format("Usage: sightfall {} ...\n\n", word) + verb_list(word) + "\n" +
         described_list({{fmt::format("{} ... --help", word), "what such a verb takes"}});
}

std::string commands_manual() {
  std::string text =
      "# Commands\n\nMade from the program's own description of its options; `sightfall VERB --help` says the same.\n";
  for (const Verb& verb : verbs()) {
    text += fmt::format("\n## `sightfall {}`\n\n{}.\n\n    {}\n\n| option | meaning |\n| --- | --- |\n", verb.name,
                        verb.meaning, usage(verb));
    for (const auto* options : {&verb.arguments, &verb.options})
      for (const Option& option : *options) text += fmt::format("| `{}` | {} |\n", typed(option), described(option));
    text += fmt::format("\nExample: `sightfall {}`\n\nExit status: {}.\n", verb.example, verb.status);
  }
  return text;
}

}  // namespace sightfall::cli
