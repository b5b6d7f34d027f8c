// SPDX-License-Identifier: GPL-3.0-or-later
// The description of verbs and options as text: --help and docs/commands.md.
//   Checked  help_test.cpp; tests/case
#pragma once
#include <string>
#include <string_view>

#include "cli/options.h"

namespace sightfall::cli {

/// `sightfall --help`.
std::string program_help();

/// `sightfall VERB --help`.
std::string verb_help(const Verb& verb);

/// `sightfall import --help`: the verbs that begin with this word.
std::string group_help(std::string_view word);

/// Every verb and option as Markdown: docs/commands.md.
std::string commands_manual();

/// What a number must lie within, in words.
std::string bounds_words(const Option& option);

}  // namespace sightfall::cli
