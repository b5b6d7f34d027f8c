// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lamp_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace sightfall::light {
namespace {

using namespace units;
using std::numbers::pi;
using testing::HasSubstr;

/// A file of LM-63: what stands before its numbers, and they.
std::string lm63(const std::string& numbers, const std::string& labels = "IESNA:LM-63-2002\n[LUMINAIRE] plain\n",
                 const std::string& tilt = "TILT=NONE\n") {
  return labels + tilt + numbers;
}

/// Lamps 2 x 500 lm; angles and intensities are to follow.
std::string head(const std::string& counts_and_type) { return "2 500 1 " + counts_and_type + " 2 0.1 0.2 0\n1 1 20\n"; }

std::string eulumdat(int symmetry, const std::string& planes, const std::string& values, const std::string& lamps = "1",
                     const std::string& flux = "2000") {
  const auto count = std::count(planes.begin(), planes.end(), '\n');
  std::string text =
      "ours\n1\n" + std::to_string(symmetry) + "\n" + std::to_string(count) + "\n0\n2\n90\nr\nyard lamp\n";
  text += "n\nf\nd\n300\n0\n80\n250\n0\n40\n40\n40\n40\n100\n80\n1.0\n0\n1\n" + lamps + "\nLED\n" + flux +
          "\n3000\n80\n9\n";
  for (int i = 0; i < 10; ++i) text += "0.5\n";
  return text + planes + "0\n90\n" + values;
}

std::string line_of(const Result<LampFile>& lamp) { return lamp ? "read" : to_line(lamp.error()); }

TEST(LampFile, TellsTheFormatsApart) {
  const auto first = parse_lamp(lm63(head("2 1 1") + "0 90 0 10 10"), "a.ies");
  ASSERT_TRUE(first) << line_of(first);
  EXPECT_EQ(first->name, "plain");
  const auto second = parse_lamp(eulumdat(1, "0\n", "10\n10\n"), "a.ldt");
  ASSERT_TRUE(second) << line_of(second);
  EXPECT_EQ(second->name, "yard lamp");
  for (const char* other : {"", "\n\n\n", "{\"lamps\": []}", "\xff\xfe I E S", "1,2,3\n4,5,6\n"})
    EXPECT_THAT(line_of(parse_lamp(other, "a.txt")), HasSubstr("a.txt: is no photometric file")) << other;
}

TEST(LampFile, TheDemosLampsGiveTheLumensTheyClaim) {
  for (const auto& [name, lumens] : {std::pair{"yard_floodlight.ies", 4000.0}, std::pair{"bulkhead.ldt", 800.0}}) {
    std::ifstream file{std::string{SIGHTFALL_SOURCE_DIR} + "/demo/lamps/" + name};
    const std::string text{std::istreambuf_iterator<char>{file}, {}};
    const auto lamp = parse_lamp(text, name);
    ASSERT_TRUE(lamp) << line_of(lamp);
    EXPECT_NEAR(lamp->candela.flux().in(lm), lumens, kFluxError * lumens) << name;
    EXPECT_THAT(lamp->name, HasSubstr("(invented)"));
  }
}

TEST(LampFile, ALargeTextIsRefusedUnread) {
  const std::string large(kLargestLampFile + 1, ' ');
  for (const auto& lamp : {parse_lamp(large, "x"), parse_lm63(large, "x"), parse_eulumdat(large, "x")})
    EXPECT_EQ(lamp.error().kind, ErrorKind::kTooLarge);
}

TEST(Lm63, MultipliesWhatTheEditionMultiplies) {
  const std::string numbers = "1 100 2 2 1 1 2 0 0 0 0.5 3 20 0 90 0 10 10";
  const auto at_axis = [&](const char* edition) {
    const auto lamp = parse_lm63(lm63(numbers, edition), "a");
    return lamp ? lamp->candela.at(Angle{0}, Angle{0}).in(cd) : -1;
  };
  EXPECT_EQ(at_axis(""), 30) << "1986: all three factors";
  EXPECT_EQ(at_axis("IESNA91\n"), 30);
  EXPECT_EQ(at_axis("IESNA:LM-63-1995\n"), 10) << "the third is kept for the future";
  EXPECT_EQ(at_axis("IESNA:LM-63-2002\n"), 10);
}

TEST(Lm63, NumbersMayBeCutByCommasBlanksAndLines) {
  const auto lamp =
      parse_lm63("IESNA:LM-63-1995\r\nTILT=NONE\r\n1,1000\r\n 1\t2 1,1,2\r\n0,0 0\r\n1 1\r\n5 0\r\n90,0 7\r\n7", "a");
  ASSERT_TRUE(lamp) << line_of(lamp);
  EXPECT_NEAR(lamp->candela.flux().in(lm), 14 * pi, 1e-9);
}

TEST(Lm63, SizesAreOfTheirUnitAndRoundOnesAreNegative) {
  const auto feet = parse_lm63(lm63("1 -1 1 2 1 1 1 -2 0 -1 1 1 20 0 90 0 1 1"), "a");
  ASSERT_TRUE(feet) << line_of(feet);
  EXPECT_NEAR(feet->width.in(ft), 2, 1e-12);
  EXPECT_NEAR(feet->length.in(ft), 2, 1e-12);
  EXPECT_NEAR(feet->height.in(ft), 1, 1e-12);
  EXPECT_EQ(feet->lamps.in(lm), 0) << "absolute";
  const auto metres = parse_lm63(lm63(head("2 1 1") + "0 90 0 1 1"), "a");
  EXPECT_EQ(metres->length.in(m), 0.2);
  EXPECT_EQ(metres->lamps.in(lm), 1000);
}

TEST(Lm63, TheLastHorizontalAngleTellsTheSymmetry) {
  // On the level all round; the first plane looks where C is 90, the next ones go on counter-clockwise.
  const auto level = [](const std::string& planes, const std::string& values, double c) {
    const auto lamp = parse_lm63(lm63(head(planes) + values), "a");
    return lamp ? lamp->candela.at(90.0 * deg, c * deg).in(cd) : -1;
  };
  for (const double c : {0.0, 90.0, 200.0}) EXPECT_NEAR(level("2 1 1", "0 90 0 1 5", c), 5, 1e-9);
  for (const double c : {0.0, 180.0}) EXPECT_NEAR(level("2 2 1", "0 90 0 90 1 5 1 8", c), 8, 1e-9);
  for (const double c : {90.0, 270.0}) EXPECT_NEAR(level("2 2 1", "0 90 0 90 1 5 1 8", c), 5, 1e-9);
  const std::string half = "0 90 0 90 180 1 5 1 8 1 3";
  EXPECT_NEAR(level("2 3 1", half, 90), 5, 1e-9);
  EXPECT_NEAR(level("2 3 1", half, 180), 8, 1e-9);
  EXPECT_NEAR(level("2 3 1", half, 0), 8, 1e-9);
  EXPECT_NEAR(level("2 3 1", half, 270), 3, 1e-9);
  const std::string whole = "0 90 0 90 180 270 360 1 5 1 8 1 3 1 6 1 5";
  EXPECT_NEAR(level("2 5 1", whole, 180), 8, 1e-9);
  EXPECT_NEAR(level("2 5 1", whole, 0), 6, 1e-9);
  const std::string open = "0 90 0 120 240 1 5 1 8 1 3";
  EXPECT_NEAR(level("2 3 1", open, 30), 4, 1e-9) << "half way from 240 degrees back to the first plane";
  const std::string sides = "0 90 90 180 270 1 5 1 8 1 3";
  EXPECT_NEAR(level("2 3 1", sides, 90), 8, 1e-9) << "what is behind is in front too";
  EXPECT_NEAR(level("2 3 1", sides, 180), 5, 1e-9);
  EXPECT_NEAR(level("2 3 1", sides, 0), 3, 1e-9);
}

TEST(Lm63, TypesAAndBAreMirroredWhereTheyBeginAtZero) {
  for (const char* type : {" 2", " 3"}) {
    const auto part = parse_lm63(lm63(head("3 3" + std::string{type}) + "0 10 20 0 10 20 9 6 3 8 5 2 7 4 1"), "a");
    ASSERT_TRUE(part) << line_of(part);
    for (const double right : {-10.0, 10.0})
      EXPECT_NEAR(part->candela.at(10.0 * deg, (right > 0 ? 0.0 : 180.0) * deg).in(cd), 8, 1e-9) << type;
    for (const double up : {90.0, 270.0}) EXPECT_NEAR(part->candela.at(10.0 * deg, up * deg).in(cd), 6, 1e-9) << type;
    const auto all = parse_lm63(lm63(head("3 2" + std::string{type}) + "-10 0 10 -10 10 1 2 3 4 5 6"), "a");
    ASSERT_TRUE(all) << line_of(all);
    EXPECT_NEAR(all->candela.at(10.0 * deg, 0.0 * deg).in(cd), 5, 1e-9) << "right";
    EXPECT_NEAR(all->candela.at(10.0 * deg, 180.0 * deg).in(cd), 2, 1e-9) << "left";
    EXPECT_NEAR(all->candela.at(10.0 * deg, 90.0 * deg).in(cd), 4.5, 1e-9) << "up";
    EXPECT_EQ(all->candela.at(30.0 * deg, 0.0 * deg).in(cd), 0);
  }
}

TEST(Lm63, FactorsOfTiltAreReadAndSkipped) {
  const std::string numbers = head("2 1 1") + "0 90 0 10 10";
  const auto lamp = parse_lm63(lm63("1\n3\n0 90 180\n1 0.8 0.7\n" + numbers, "", "TILT=INCLUDE\n"), "a");
  ASSERT_TRUE(lamp) << line_of(lamp);
  EXPECT_NEAR(lamp->candela.flux().in(lm), 20 * pi, 1e-9);
  EXPECT_THAT(line_of(parse_lm63(lm63(numbers, "", "TILT=bent.tlt\n"), "a")),
              HasSubstr("a: line 1: TILT: found \"BENT.TLT\", another file"));
}

TEST(Lm63, NamesComeFromTheKeywordsInAnyAlphabet) {
  const auto name = [](const std::string& labels) {
    return parse_lm63(lm63(head("2 1 1") + "0 90 0 1 1", labels), "a")->name;
  };
  EXPECT_EQ(name("Lamp of 1986\nsecond label\n"), "Lamp of 1986");
  EXPECT_EQ(name("IESNA91\n[LUMCAT] 12\n[MANUFAC] ours\n"), "12");
  EXPECT_EQ(name("IESNA91\n[LUMCAT] 12\n[LUMINAIRE] h\xf6her\n"), "h\xc3\xb6her") << "Latin-1";
  EXPECT_EQ(name("IESNA91\n[LUMINAIRE] h\xc3\xb6her\n"), "h\xc3\xb6her") << "UTF-8";
  EXPECT_EQ(name("IESNA91\n[LUMINAIRE] a\x1b[2J\xc2\x9b\xe2\x80\xae\xed\xa0\x80z\n"), "a[2J\xc3\xad\xc2\xa0z")
      << "no commands";
  EXPECT_EQ(name("IESNA91\n[LUMINAIRE] a\xe2\x80\x93z\n"), "a\xe2\x80\x93z") << "a dash shows";
  EXPECT_LE(name("IESNA91\n[LUMINAIRE] " + std::string(5000, 'x') + "\n").size(), 130U);
}

TEST(Lm63, ErrorsTellLineFieldAndWhatIsAllowed) {
  const auto told = [](const std::string& numbers) { return line_of(parse_lm63(lm63(numbers), "f.ies")); };
  EXPECT_EQ(told("1 x"), "f.ies: line 4: lumens per lamp: found \"x\"; allowed is a number from -1 to 1000000000");
  EXPECT_THAT(told("1 -0.5 1"), HasSubstr("-1, absolute"));
  EXPECT_THAT(told("1 100 1\n\n2 1 4"),
              HasSubstr("line 6: photometric type: found \"4\"; allowed is a number from 1 to 3"));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 10 -3"), HasSubstr("line 6: intensities: found \"-3\""));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 10 nan"), HasSubstr("found \"nan\""));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 10 1e999"), HasSubstr("found \"1e999\""));
  EXPECT_THAT(told(head("2 1 1") + "90 0 0 10 3"), HasSubstr("vertical angles: found 0 after 90; they must rise"));
  EXPECT_THAT(told(head("2 1 1") + "0 1e-320 0 10 3"), HasSubstr("they must rise"));
  EXPECT_THAT(told(head("2 2 1") + "0 90 0 45 10 3 10 3"), HasSubstr("horizontal angles: found 0 to 45; allowed is"));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 "), HasSubstr("the file is too short for the 2 numbers"));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 10"), HasSubstr("intensities: the file ends here"));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 1000"), HasSubstr("the file ends here"));
  EXPECT_THAT(told(head("2 1 1") + "0 90 0 10 10 10"), HasSubstr("after the last intensity"));
  EXPECT_THAT(told(head("2001 1 1")),
              HasSubstr("number of vertical angles: found \"2001\"; allowed is a number from 2 to 2000"));
  EXPECT_THAT(told(head("1.5 1 1")), HasSubstr("number of vertical angles"));
  EXPECT_THAT(told(head("2000 2000 1")), HasSubstr("too short for the 2000 numbers"));
  EXPECT_THAT(told(head("2 1 2") + "-90 90 0 1 1"), HasSubstr("types A and B need 2"));
  EXPECT_THAT(told(""), HasSubstr("number of lamps: the file ends here"));
  EXPECT_THAT(line_of(parse_lm63("IESNA91\n1 2 3", "f")), HasSubstr("a line TILT= must come"));
  EXPECT_THAT(told(std::string("1 \x1b[2J\xff")), HasSubstr("found \"?[2J?\"")) << "nothing that commands a terminal";
}

TEST(Eulumdat, MultipliesByTheFluxOfTheFirstSet) {
  const auto lamp = parse_eulumdat(eulumdat(1, "0\n", "100\n100\n"), "a");
  ASSERT_TRUE(lamp) << line_of(lamp);
  EXPECT_EQ(lamp->candela.at(Angle{0}, Angle{0}).in(cd), 200);
  EXPECT_EQ(lamp->lamps.in(lm), 2000);
  EXPECT_EQ(lamp->length.in(mm), 250);
  EXPECT_EQ(lamp->width.in(mm), 250) << "round";
  EXPECT_EQ(lamp->height.in(mm), 40);
  const auto absolute = parse_eulumdat(eulumdat(1, "0\n", "100\n100\n", "-1", "500"), "a");
  EXPECT_EQ(absolute->candela.at(Angle{0}, Angle{0}).in(cd), 50);
  EXPECT_EQ(absolute->lamps.in(lm), 0);
}

TEST(Eulumdat, SkipsTheOtherSetsOfLamps) {
  std::string text = eulumdat(1, "0\n", "100\n100\n");
  const std::string set = "\n1\nLED\n2000\n3000\n80\n9\n";
  text.replace(text.find("\n1" + set), set.size() + 2, "\n2" + set + "3\nother\n9000\nwarm\n-\n-\n");
  const auto lamp = parse_eulumdat(text, "a");
  ASSERT_TRUE(lamp) << line_of(lamp);
  EXPECT_EQ(lamp->lamps.in(lm), 2000);
}

TEST(Eulumdat, EachSymmetryKeepsItsPlanes) {
  const auto level = [](int symmetry, const std::string& values, double c) {
    const auto lamp = parse_eulumdat(eulumdat(symmetry, "0\n90\n180\n270\n", values, "1", "1000"), "a");
    return lamp ? lamp->candela.at(90.0 * deg, c * deg).in(cd) : -1;
  };
  const auto all = [&](int symmetry, const std::string& values) {
    return std::vector<double>{level(symmetry, values, 0), level(symmetry, values, 90), level(symmetry, values, 180),
                               level(symmetry, values, 270)};
  };
  using testing::DoubleNear;
  using testing::ElementsAre;
  const auto are = [](double a, double b, double c, double d) {
    return ElementsAre(DoubleNear(a, 1e-6), DoubleNear(b, 1e-6), DoubleNear(c, 1e-6), DoubleNear(d, 1e-6));
  };
  EXPECT_THAT(all(0, "0\n1\n0\n2\n0\n3\n0\n4\n"), are(1, 2, 3, 4));
  EXPECT_THAT(all(1, "0\n1\n"), are(1, 1, 1, 1));
  EXPECT_THAT(all(2, "0\n1\n0\n2\n0\n3\n"), are(1, 2, 3, 2));
  EXPECT_THAT(all(3, "0\n4\n0\n1\n0\n2\n"), are(1, 2, 1, 4)) << "from C 270 over C 0 to C 90";
  EXPECT_THAT(all(4, "0\n1\n0\n2\n"), are(1, 2, 1, 2));
  EXPECT_NEAR(level(0, "0\n1\n0\n2\n0\n3\n0\n4\n", 315), 2.5, 1e-9) << "from the last plane back to the first";
}

TEST(Eulumdat, ACommaIsADecimalMarkWhereItCanBeNothingElse) {
  const auto axis = [](const std::string& value) {
    const auto lamp = parse_eulumdat(eulumdat(1, "0\n", value + "\n0\n", "1", "1000"), "a");
    return lamp ? lamp->candela.at(Angle{0}, Angle{0}).in(cd) : -1;
  };
  EXPECT_EQ(axis("12,5"), 12.5);
  EXPECT_EQ(axis("0,125"), 0.125);
  EXPECT_EQ(axis("1,2345"), 1.2345);
  for (const char* unclear : {"1,250", "1,250.5", "1.250,5", "1,2,3", ","}) EXPECT_EQ(axis(unclear), -1) << unclear;
  EXPECT_THAT(line_of(parse_eulumdat(eulumdat(1, "0\n", "1,250\n0\n"), "a.ldt")),
              HasSubstr("whose comma can be read in two ways"));
}

TEST(Eulumdat, ErrorsTellLineFieldAndWhatIsAllowed) {
  const auto told = [](const std::string& text) { return line_of(parse_eulumdat(text, "f.ldt")); };
  EXPECT_EQ(told("ours\n1\n7\n"), "f.ldt: line 3: symmetry: found \"7\"; allowed is a number from 0 to 4");
  EXPECT_THAT(told("ours\n0\n1\n999999999\n"), HasSubstr("line 4: number of C planes: found \"999999999\""));
  EXPECT_THAT(told("ours\n1"), HasSubstr("line 2: symmetry: the file ends here"));
  EXPECT_THAT(told(eulumdat(1, "0\n", "5\n")), HasSubstr("intensities: the file ends here"));
  EXPECT_THAT(told(eulumdat(1, "0\n", "5\n-2\n")), HasSubstr("intensities: found \"-2\""));
  EXPECT_THAT(told(eulumdat(1, "0\n", "5\n2\n2\n")), HasSubstr("after the last intensity"));
  EXPECT_THAT(told(eulumdat(0, "0\n180\n90\n", "5\n")), HasSubstr("C planes: found 90 after 180"));
  EXPECT_THAT(told(eulumdat(2, "0\n10\n20\n30\n", "5\n")), HasSubstr("symmetry 2 needs them from 0 to 180"));
  EXPECT_THAT(told(eulumdat(1, "0\n", "5\n5\n", "0")), HasSubstr("number of lamps: found 0"));
}

TEST(LampFile, EveryBeginningOfAFileIsReadOrRefused) {
  for (const std::string& text : {lm63(head("3 3 1") + "0 45 90 0 90 180 1 2 3 4 5 6 7 8 9"),
                                  eulumdat(3, "0\n90\n180\n270\n", "0\n4\n0\n1\n0\n2\n")})
    for (size_t size = 0; size < text.size() - 2; ++size) {
      const auto lamp = parse_lamp(std::string_view{text}.substr(0, size), "cut");
      EXPECT_TRUE(!lamp && !lamp.error().text.empty()) << size;
    }
}

}  // namespace
}  // namespace sightfall::light
