// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall completion bash`: verbs and their options from the one description; the names of needs, conditions and
// files are left to the shell.
#include <fmt/format.h>

#include <cstdio>
#include <string>

#include "cli/options.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"

namespace sightfall::cli {
namespace {

std::string words_of(const std::vector<Option>& options) {
  std::string words;
  for (const Option& option : options) words += fmt::format("{} ", option.name);
  return words + "--help";
}

std::string script() {
  std::string first, second, cases;
  for (const Verb& verb : verbs()) {
    const std::string name{verb.name};
    const size_t space = name.find(' ');
    const std::string word = name.substr(0, space);
    if ((" " + first).find(" " + word + " ") == std::string::npos) first += word + " ";
    if (space != std::string::npos) second += name.substr(space + 1) + " ";
    cases += fmt::format("    '{}'*) words='{}' ;;\n", name, words_of(verb.options));
  }
  return fmt::format(
      "_sightfall() {{\n"
      "  local words line=\"${{COMP_WORDS[*]:1}}\" current=\"${{COMP_WORDS[COMP_CWORD]}}\"\n"
      "  case \"$line\" in\n{}"
      "    import*) words='{}' ;;\n"
      "    *) words='{}--help --version' ;;\n"
      "  esac\n"
      "  COMPREPLY=($(compgen -W \"$words\" -- \"$current\"))\n"
      "  if [[ $current != -* ]] && ((COMP_CWORD > 1)); then COMPREPLY+=($(compgen -f -- \"$current\")); fi\n"
      "}}\n"
      "complete -o filenames -F _sightfall sightfall\n",
      cases, second, first);
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
