// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/help.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "cli/layout.h"

namespace sightfall::cli {
namespace {

using testing::HasSubstr;

TEST(Help, NamesEveryVerbAndOption) {
  for (const Verb& verb : verbs()) {
    EXPECT_THAT(program_help(), HasSubstr("  " + std::string(verb.name) + " "));
    for (const auto* options : {&verb.arguments, &verb.options})
      for (const Option& option : *options)
        EXPECT_THAT(verb_help(verb), HasSubstr("\n  " + std::string(option.name))) << verb.name;
  }
}

TEST(Help, FitsTheTerminal) {
  for (const Verb& verb : verbs()) {
    std::istringstream lines(verb_help(verb));
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(columns_of(line), terminal_width()) << line;
      EXPECT_TRUE(line.empty() || line.back() != ' ') << line;
    }
  }
}

TEST(Help, SaysWhatANumberMayBe) {
  EXPECT_EQ(bounds_words({"--a", OptionKind::kNumber, "M", "", 1e-6, 1e5}), "0.000001 to 100000");
  EXPECT_EQ(bounds_words({"--a", OptionKind::kNumber, "M", "", 0.5}), "0.5 or more");
  EXPECT_EQ(bounds_words({"--a", OptionKind::kNumber, "M", ""}), "any number");
}

/// SIGHTFALL_WRITE_DOCS=1 writes the manual anew, for a person to read before it is kept.
TEST(Help, TheManualIsAsKept) {
  const std::string path = SIGHTFALL_SOURCE_DIR "/docs/commands.md";
  if (std::getenv("SIGHTFALL_WRITE_DOCS") != nullptr)  // NOLINT(concurrency-mt-unsafe): one thread
    std::ofstream(path) << commands_manual();
  std::ostringstream kept;
  kept << std::ifstream(path).rdbuf();
  EXPECT_EQ(kept.str(), commands_manual()) << "docs/commands.md differs from what the program takes";
}

}  // namespace
}  // namespace sightfall::cli
