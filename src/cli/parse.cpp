// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/parse.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <cmath>
#include <deque>
#include <sstream>

namespace sightfall::cli {
namespace {

std::optional<double> number_of(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts;
  size_t from = 0;
  for (size_t next = text.find(at); next != std::string::npos; next = text.find(at, from)) {
    parts.push_back(text.substr(from, next - from));
    from = next + 1;
  }
  parts.push_back(text.substr(from));
  return parts;
}

std::string bounds_words(const Option& option) {
  if (option.lowest && option.highest) return fmt::format("{:g} to {:g}", *option.lowest, *option.highest);
  if (option.lowest) return fmt::format("{:g} or more", *option.lowest);
  return "any number";
}

/// The option's meaning with its range and what is taken without it.
std::string described(const Option& option) {
  std::string text{option.meaning};
  const bool numeric = option.kind == OptionKind::kNumber || option.kind == OptionKind::kNumbers;
  if (numeric && option.lowest) text += fmt::format(" ({})", bounds_words(option));
  if (!option.otherwise.empty()) text += fmt::format("; otherwise {}", option.otherwise);
  return text;
}

std::optional<Error> number_error(const Option& option, const std::string& text) {
  const auto value = number_of(text);
  if (value && (!option.lowest || *value >= *option.lowest) && (!option.highest || *value <= *option.highest))
    return std::nullopt;
  return Error{ErrorKind::kRequest,
               fmt::format("found \"{}\"; allowed: {}", text, bounds_words(option)),
               {"command line", "", std::string(option.name)}};
}

/// Where the parser leaves what it found for one option.
struct Found {
  const Option* option;
  CLI::Option* parsed = nullptr;
  std::vector<std::string> values;
};

/// The verb's options in the parser's terms.
class VerbParser {
 public:
  VerbParser(CLI::App& app, const Verb& verb) : verb_{verb}, app_{app} {
    for (const Option& option : verb.arguments) add(option, std::string(option.name));
    for (const Option& option : verb.options) add(option, std::string(option.name));
  }

  bool chosen() const { return app_.parsed(); }
  const Verb& verb() const { return verb_; }

  Result<Given> given() const {
    Given given;
    for (const Found& found : found_) {
      if (found.parsed->count() == 0) continue;
      std::vector<std::string> values = found.values;
      if (found.option->kind == OptionKind::kNumbers) values = split(values.front(), ',');
      const bool numeric = found.option->kind == OptionKind::kNumber || found.option->kind == OptionKind::kNumbers;
      for (const std::string& value : values)
        if (auto error = numeric ? number_error(*found.option, value) : std::nullopt)
          return tl::make_unexpected(std::move(*error));
      given.set(found.option->name, std::move(values));
    }
    return given;
  }

 private:
  void add(const Option& option, const std::string& name) {
    Found& found = found_.emplace_back(Found{&option, nullptr, {}});
    if (option.kind == OptionKind::kFlag) {
      const std::string meaning = described(option);
      found.parsed = app_.add_flag(name, meaning);
      return;
    }
    found.parsed = app_.add_option(name, found.values, described(option));
    found.parsed->type_name(std::string(option.value));
    found.parsed->required(option.required);
    if (option.kind != OptionKind::kNames) found.parsed->expected(1);
  }

  const Verb& verb_;
  CLI::App& app_;
  std::deque<Found> found_;  // the parser keeps pointers into it
};

CLI::App* subcommand(CLI::App& app, const std::string& name) {
  for (CLI::App* one : app.get_subcommands([](CLI::App*) { return true; }))
    if (one->get_name() == name) return one;
  return nullptr;
}

/// The parser of a verb of one word or two: `import` holds `terrain` and `footprints`.
CLI::App& app_for(CLI::App& root, const Verb& verb) {
  const std::vector<std::string> words = split(std::string(verb.name), ' ');
  CLI::App* app = &root;
  for (size_t i = 0; i < words.size(); ++i) {
    const bool last = i + 1 == words.size();
    CLI::App* next = last ? nullptr : subcommand(*app, words[i]);
    if (next == nullptr) {
      next = app->add_subcommand(words[i], last ? std::string(verb.meaning) : "reads a map into a site");
      if (!last) next->require_subcommand(1);
    }
    app = next;
  }
  return *app;
}

void add_table(std::string& text, const std::vector<Option>& options) {
  for (const Option& option : options)
    text += fmt::format("| `{}{}` | {} |\n", option.name,
                        option.value.empty() || option.value == option.name ? "" : fmt::format(" {}", option.value),
                        described(option));
}

}  // namespace

std::optional<double> Given::number(std::string_view name) const {
  return has(name) ? number_of(text(name)) : std::nullopt;
}

std::vector<double> Given::numbers(std::string_view name) const {
  std::vector<double> numbers;
  for (const std::string& value : names(name)) numbers.push_back(*number_of(value));
  return numbers;
}

std::vector<std::string> Given::names(std::string_view name) const {
  return has(name) ? values_.at(std::string(name)) : std::vector<std::string>{};
}

Result<Request> parse(int argc, const char* const* argv) {
  CLI::App root{
      "Sightfall: whether a camera will show the face or the plate at the place that matters, before it is "
      "bought and mounted.",
      "sightfall"};
  root.require_subcommand(1);
  root.set_version_flag("--version", "sightfall " SIGHTFALL_VERSION);
  root.footer("Exit status: 0 every need met, 1 some need missed or marginal, 2 bad input.");
  std::deque<VerbParser> parsers;
  for (const Verb& verb : verbs()) parsers.emplace_back(app_for(root, verb), verb);
  try {
    root.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    std::ostringstream out, err;
    if (root.exit(error, out, err) == 0) return Request{nullptr, {}, out.str()};
    std::string text = error.what();
    return failure(ErrorKind::kRequest, text + "; `sightfall --help` says what is allowed", {"command line", "", ""});
  }
  for (const VerbParser& parser : parsers) {
    if (!parser.chosen()) continue;
    auto given = parser.given();
    if (!given) return tl::make_unexpected(given.error());
    return Request{&parser.verb(), std::move(*given), ""};
  }
  return failure(ErrorKind::kRequest, "no verb was given; `sightfall --help` lists them", {"command line", "", ""});
}

std::string commands_manual() {
  std::string text =
      "# Commands\n\nMade from the program's own description of its options; `sightfall VERB --help` says the same.\n";
  for (const Verb& verb : verbs()) {
    text += fmt::format("\n## `sightfall {}`\n\n{}.\n\n| option | meaning |\n| --- | --- |\n", verb.name, verb.meaning);
    add_table(text, verb.arguments);
    add_table(text, verb.options);
  }
  return text + "\nExit status: 0 every need met, 1 some need missed or marginal, 2 bad input.\n";
}

}  // namespace sightfall::cli
