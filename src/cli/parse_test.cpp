// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/parse.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::cli {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using Words = std::vector<std::string>;

Given given(const Words& words) {
  const auto request = parse(words);
  if (!request || request->verb == nullptr) {
    ADD_FAILURE() << (request ? "nothing to run" : to_line(request.error().front()));
    return {};
  }
  return request->given;
}

Words errors(const Words& words) {
  const auto request = parse(words);
  Words lines;
  if (request)
    ADD_FAILURE() << "no error";
  else
    for (const Error& error : request.error()) lines.push_back(to_line(error));
  return lines;
}

const Words kCard{"card", "--pixels", "3840x2160"};

Words card_with(const Words& more) {
  Words words = kCard;
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Parse, FindsVerbsOfOneWordAndOfTwo) {
  EXPECT_EQ(parse({"check", "a.json"})->verb->name, "check");
  EXPECT_EQ(parse({"import", "terrain", "a.tif", "--into", "a.json"})->verb->name, "import terrain");
}

TEST(Parse, TakesArgumentsAndOptionsInAnyOrder) {
  for (const Words& words :
       {Words{"check", "a.json", "--maps", "out", "--json"}, Words{"check", "--json", "--maps=out", "a.json"}}) {
    const Given found = given(words);
    EXPECT_EQ(found.text("SITE"), "a.json");
    EXPECT_EQ(found.text("--maps"), "out");
    EXPECT_TRUE(found.has("--json"));
    EXPECT_FALSE(found.has("--no-remedies"));
    EXPECT_EQ(found.text_or("--when", "none"), "none");
  }
}

TEST(Parse, ANameTakesOneWordAndMayBeGivenAgain) {
  EXPECT_THAT(given({"check", "--need", "a", "--need", "b c", "site.json"}).names("--need"), ElementsAre("a", "b c"));
  EXPECT_THAT(given({"check", "site.json"}).names("--need"), ElementsAre());
}

TEST(Parse, NumbersMayBeNegativeAndListsHaveCommas) {
  EXPECT_EQ(given(card_with({"--height", "3", "--tilt", "-5.5"})).number("--tilt"), -5.5);
  EXPECT_EQ(given(card_with({"--tilt=-5"})).number("--tilt"), -5);
  EXPECT_EQ(given(card_with({"--shutter", "1e-3"})).number("--shutter"), 0.001);
  EXPECT_EQ(given(kCard).number("--tilt"), std::nullopt);
  EXPECT_THAT(given(card_with({"--marks", "5,2.5,30"})).numbers("--marks"), ElementsAre(5, 2.5, 30));
}

TEST(Parse, AfterTwoDashesEverythingIsAnArgument) {
  EXPECT_EQ(given({"check", "--", "--odd.json"}).text("SITE"), "--odd.json");
  EXPECT_EQ(given({"check", "--maps=--out", "a.json"}).text("--maps"), "--out");
}

TEST(Parse, BoundsBelongToTheRange) {
  EXPECT_EQ(given(card_with({"--height", "60"})).number("--height"), 60);
  EXPECT_THAT(errors(card_with({"--height", "60.1"})),
              ElementsAre("command line: --height: found \"60.1\"; allowed: 0 to 60"));
}

TEST(Parse, RefusesWhatIsNoFiniteNumber) {
  for (const char* text : {"nan", "inf", "1e999", "12mm", "0x10", " 1", "1,5"})
    EXPECT_THAT(errors(card_with({"--focal", text})), ElementsAre(HasSubstr("--focal: found "))) << text;
  EXPECT_THAT(errors(card_with({"--marks", "1,,2"})), ElementsAre(HasSubstr("--marks: found \"\"")));
}

TEST(Parse, TellsEveryMistake) {
  EXPECT_THAT(errors(card_with({"--focal", "x", "--view", "0", "--jsn"})),
              ElementsAre(HasSubstr("--focal"), HasSubstr("--view"), HasSubstr("did you mean \"--json\"?")));
}

TEST(Parse, TellsWhatIsMissing) {
  EXPECT_THAT(errors({"import", "terrain"}), ElementsAre(HasSubstr("FILE: missing"), HasSubstr("--into: missing")));
  EXPECT_THAT(errors({"check", "a.json", "--maps"}), ElementsAre(HasSubstr("--maps: found nothing after it")));
  EXPECT_THAT(errors({"check", "a.json", "--maps", "--json"}),
              ElementsAre(HasSubstr("--maps: found nothing after it")));
  EXPECT_THAT(errors({"check", "a.json", "--maps", ""}), ElementsAre(HasSubstr("--maps: found an empty text")));
  EXPECT_THAT(errors({"import", "terrain", "a.tif", "--into"}), ElementsAre(HasSubstr("--into: found nothing")));
}

TEST(Parse, RefusesWhatIsTooMuch) {
  EXPECT_THAT(errors({"check", "a.json", "b.json"}), ElementsAre(HasSubstr("found \"b.json\" too")));
  EXPECT_THAT(errors({"check", "a.json", "--json=1"}), ElementsAre(HasSubstr("--json: found a value")));
  EXPECT_THAT(errors({"check", "a.json", "--maps", "a", "--maps", "b"}), ElementsAre(HasSubstr("--maps: found twice")));
}

TEST(Parse, NamesTheNearestVerb) {
  EXPECT_THAT(errors({"chek"}), ElementsAre(HasSubstr("found verb \"chek\"; did you mean \"check\"?")));
  EXPECT_THAT(errors({"import", "terain"}), ElementsAre(HasSubstr("did you mean \"import terrain\"?")));
  EXPECT_THAT(
      errors({"zebra"}),
      ElementsAre(HasSubstr(
          "allowed: \"check\", \"card\", \"walk\", \"loads\", \"papers\", \"import\", \"serve\", \"completion\"")));
  EXPECT_THAT(errors({"--json", "check"}), ElementsAre(HasSubstr("where a verb belongs")));
}

TEST(Parse, PrintsHelpWhereverItIsAsked) {
  EXPECT_THAT(parse({"--help"})->print, HasSubstr("Usage: sightfall VERB"));
  EXPECT_THAT(parse({"check", "a.json", "--bogus", "--help"})->print, HasSubstr("Usage: sightfall check SITE"));
  EXPECT_THAT(parse({"import", "-h"})->print, HasSubstr("import terrain"));
  EXPECT_EQ(parse({"--help"})->status, 0);
  EXPECT_EQ(parse({})->status, 2);
  EXPECT_EQ(parse({"import"})->status, 2);
  EXPECT_THAT(parse({"--version"})->print, testing::StartsWith("sightfall "));
}

}  // namespace
}  // namespace sightfall::cli
