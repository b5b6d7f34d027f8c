// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall completion bash`: verbs, options and the kinds of their values from the one description; files and folders
// are left to the shell.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <string>

#include "cli/options.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"

namespace sightfall::cli {
namespace {

std::string options_of(const Verb& verb) {
  std::string words;
  for (const Option& option : verb.options) words += fmt::format("{} ", option.name);
  return words + "--help";
}

bool takes_file(const Verb& verb) {
  return std::ranges::any_of(verb.arguments, [](const Option& one) { return one.kind == OptionKind::kFile; });
}

/// What may follow each option that takes a value: `--maps) folder ;;`.
std::string values_of(const Verb& verb) {
  std::string cases;
  for (const Option& option : verb.options)
    if (option.kind != OptionKind::kFlag)
      cases += fmt::format("        {}) want={} ;;\n", option.name,
                           option.kind == OptionKind::kFolder ? "folders"
                           : option.kind == OptionKind::kFile ? "files"
                                                              : "nothing");
  return cases;
}

std::string verb_case(const Verb& verb) {
  const std::string argument = takes_file(verb) ? "files" : verb.name == "completion" ? "bash" : "nothing";
  return fmt::format(
      "    '{} '*)\n"
      "      options='{}' want={}\n"
      "      case $before in\n{}"
      "      esac ;;\n",
      verb.name, options_of(verb), argument, values_of(verb));
}

/// The word in the list of words, each followed by a blank, once.
void add_once(std::string& words, const std::string& word) {
  if ((" " + words).find(" " + word + " ") == std::string::npos) words += word + " ";
}

constexpr const char* kEnd =
    "  esac\n"
    "  COMPREPLY=()\n"
    "  if [[ $want == verbs || $current == -* ]]; then\n"
    "    mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$current\")\n"
    "  elif [[ $want == bash ]]; then\n"
    "    COMPREPLY=(bash)\n"
    "  elif [[ $want == files ]]; then\n"
    "    compopt -o filenames 2>/dev/null\n"
    "    mapfile -t COMPREPLY < <(compgen -f -- \"$current\")\n"
    "  elif [[ $want == folders ]]; then\n"
    "    compopt -o filenames 2>/dev/null\n"
    "    mapfile -t COMPREPLY < <(compgen -d -- \"$current\")\n"
    "  fi\n"
    "}\n"
    "complete -F _sightfall sightfall\n";

std::string script() {
  std::string first, second, cases;
  for (const Verb& verb : verbs()) {
    const std::string name{verb.name};
    const size_t space = name.find(' ');
    add_once(first, name.substr(0, space));
    if (space != std::string::npos) second += name.substr(space + 1) + " ";
    cases += verb_case(verb);
  }
  return fmt::format(
             "_sightfall() {{\n"
             "  local current=\"${{COMP_WORDS[COMP_CWORD]}}\" before=\"${{COMP_WORDS[COMP_CWORD-1]}}\"\n"
             "  local line=\"${{COMP_WORDS[*]:1:COMP_CWORD-1}} \" options= want=nothing\n"
             "  case $line in\n{}"
             "    'import ') options='{}--help' want=verbs ;;\n"
             "    ' ') options='{}--help --version' want=verbs ;;\n",
             cases, second, first) +
         kEnd;
}

}  // namespace

int run_completion(const Given& given) {
  if (given.text("SHELL") != "bash")
    return report(Error{
        ErrorKind::kRequest, "found \"" + given.text("SHELL") + "\"; allowed: bash", {"command line", "", "SHELL"}});
  std::fputs(script().c_str(), stdout);
  return 0;
}

}  // namespace sightfall::cli
