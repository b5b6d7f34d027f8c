// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/parse.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "cli/help.h"
#include "file/words.h"

namespace sightfall::cli {
namespace {

using Words = std::vector<std::string>;

std::optional<double> number_of(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

Words split(const std::string& text, char at) {
  Words parts;
  size_t from = 0;
  for (size_t next = text.find(at); next != std::string::npos; next = text.find(at, from)) {
    parts.push_back(text.substr(from, next - from));
    from = next + 1;
  }
  parts.push_back(text.substr(from));
  return parts;
}

/// `-5` is a number and `-` a name; anything else that begins with a dash is an option.
bool is_option(const std::string& word) { return word.size() > 1 && word.front() == '-' && !number_of(word); }

/// The words after the verb, read by its description.
class Reading {
 public:
  Reading(const Verb& verb, Words words) : verb_{verb}, words_{std::move(words)} {}

  Checked<Given> given() {
    bool options = true;
    while (next_ < words_.size()) {
      std::string word = words_[next_++];
      if (options && word == "--")
        options = false;
      else if (options && is_option(word))
        take_option(word);
      else
        take_argument(std::move(word));
    }
    check_missing();
    if (!errors_.empty()) return tl::make_unexpected(std::move(errors_));
    return std::move(given_);
  }

 private:
  void wrong(std::string_view option, std::string text) { errors_.push_back(request_error(option, std::move(text))); }

  void take_option(const std::string& word) {
    const size_t equals = word.find('=');
    const std::string name = word.substr(0, equals);
    const auto option =
        std::find_if(verb_.options.begin(), verb_.options.end(), [&](const Option& one) { return one.name == name; });
    if (option == verb_.options.end()) return unknown(name);
    if (option->kind == OptionKind::kFlag) {
      if (equals != std::string::npos) return wrong(name, "found a value; it takes none");
      return take(*option, "");
    }
    if (equals != std::string::npos) return take(*option, word.substr(equals + 1));
    const bool follows = next_ < words_.size() && words_[next_].substr(0, 2) != "--";
    if (!follows) {
      given_.set(name, {""});  // it is told once, not also as missing
      return wrong(name, fmt::format("found nothing after it; allowed: {} {}", name, option->value));
    }
    take(*option, words_[next_++]);
  }

  void unknown(const std::string& name) {
    unknown_ = true;
    std::vector<std::string_view> names{"--help"};
    for (const Option& one : verb_.options) names.push_back(one.name);
    wrong("", fmt::format("found option {}{}", file::in_quotes(name), file::suggestion(name, names)));
  }

  void take_argument(std::string word) {
    if (arguments_ < verb_.arguments.size()) return take(verb_.arguments[arguments_++], std::move(word));
    if (unknown_) return;  // most likely the value of that option
    wrong("", fmt::format(
                  "found {} too; `sightfall {}` takes {}", file::in_quotes(word), verb_.name,
                  verb_.arguments.size() == 1 ? fmt::format("one {}", verb_.arguments.front().name) : "no such word"));
  }

  void take(const Option& option, std::string value) {
    const bool several = option.kind == OptionKind::kNames;
    if (given_.has(option.name) && !several) return wrong(option.name, "found twice; once is allowed");
    if (value.empty() && option.kind != OptionKind::kFlag)
      wrong(option.name, fmt::format("found an empty text; allowed: {}", option.value));
    Words values = several ? given_.names(option.name) : Words{};
    if (option.kind == OptionKind::kNumbers)
      values = split(value, ',');
    else
      values.push_back(std::move(value));
    if (option.kind == OptionKind::kNumber || option.kind == OptionKind::kNumbers)
      for (const std::string& one : values) check_number(option, one);
    given_.set(option.name, std::move(values));
  }

  void check_number(const Option& option, const std::string& text) {
    const auto value = number_of(text);
    if (text.empty() && option.kind == OptionKind::kNumber) return;
    if (value && (!option.lowest || *value >= *option.lowest) && (!option.highest || *value <= *option.highest)) return;
    wrong(option.name, fmt::format("found {}; allowed: {}", file::in_quotes(text), bounds_words(option)));
  }

  void check_missing() {
    for (const auto* options : {&verb_.arguments, &verb_.options})
      for (const Option& one : *options)
        if (one.required && !given_.has(one.name)) wrong(one.name, fmt::format("missing; needed is {}", one.meaning));
  }

  const Verb& verb_;
  const Words words_;
  size_t next_ = 0, arguments_ = 0;
  bool unknown_ = false;
  Given given_;
  Errors errors_;
};

Request to_print(std::string text, int status = 0) { return {nullptr, {}, std::move(text), status}; }

bool asks_help(const std::string& word) { return word == "--help" || word == "-h"; }

/// Whether help is asked for among the options; after `--` it is an argument.
bool asks_help(const Words& words) {
  const auto end = std::find(words.begin(), words.end(), "--");
  return std::any_of(words.begin(), end, [](const std::string& word) { return asks_help(word); });
}

/// The words at their place in the verbs' names, after `before`: the first ones, or what may follow `import`.
std::vector<std::string_view> verb_words(std::string_view before) {
  std::vector<std::string_view> words;
  for (const Verb& verb : verbs()) {
    if (verb.name.substr(0, before.size()) != before) continue;
    const std::string_view rest = verb.name.substr(before.size());
    const std::string_view word = rest.substr(0, rest.find(' '));
    if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  }
  return words;
}

tl::unexpected<Errors> no_such_verb(const std::string& group, const std::string& word) {
  const std::vector<std::string_view> known = verb_words(group);
  const auto meant = file::nearest(word, known);
  std::string text = is_option(word) ? "found option " + file::in_quotes(word) + " where a verb belongs"
                                     : "found verb " + file::in_quotes(group + word);
  if (meant) text += "; did you mean " + file::in_quotes(group + std::string(*meant)) + "?";
  text += fmt::format("{} allowed: {}; `sightfall {}--help` says what they do", meant ? "" : ";", file::listed(known),
                      group);
  return tl::make_unexpected(Errors{request_error("", std::move(text))});
}

Checked<Request> parse_verb(const Verb& verb, Words words) {
  if (asks_help(words)) return to_print(verb_help(verb));
  auto given = Reading(verb, std::move(words)).given();
  if (!given) return tl::make_unexpected(given.error());
  return Request{&verb, std::move(*given), "", 0};
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

Error request_error(std::string_view option, std::string text) {
  return {ErrorKind::kRequest, std::move(text), {"command line", "", std::string(option)}};
}

Checked<Request> parse(const Words& words) {
  if (words.empty()) return to_print(program_help(), 2);
  if (asks_help(words.front())) return to_print(program_help());
  if (words.front() == "--version") return to_print("sightfall " SIGHTFALL_VERSION "\n");
  const auto from = [&](size_t count) {
    return Words(words.begin() + static_cast<std::ptrdiff_t>(std::min(count, words.size())), words.end());
  };
  for (const Verb& verb : verbs())
    if (verb.name == words.front()) return parse_verb(verb, from(1));

  const std::string group = words.front() + " ";
  if (verb_words(group).empty()) return no_such_verb("", words.front());
  if (words.size() == 1) return to_print(group_help(words.front()), 2);
  if (asks_help(words[1])) return to_print(group_help(words.front()));
  for (const Verb& verb : verbs())
    if (verb.name == group + words[1]) return parse_verb(verb, from(2));
  return no_such_verb(group, words[1]);
}

}  // namespace sightfall::cli
