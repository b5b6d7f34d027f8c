// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/json.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <limits>
#include <random>

namespace sightfall::file {
namespace {

Value parsed(std::string_view text) {
  auto value = parse_json(text, "t");
  EXPECT_TRUE(value.has_value()) << value.error().text;
  return value ? *value : Value{};
}

std::string refusal(std::string_view text) {
  const auto value = parse_json(text, "t");
  EXPECT_FALSE(value.has_value()) << text;
  return value ? "" : value.error().text;
}

TEST(Json, ReadsEveryType) {
  const Value value =
      parsed(R"({"a": [1, -2.5, 1e3, 18446744073709551615], "b": {"c": null, "d": true}, "e": "\u00e9\n"})");
  EXPECT_EQ(value, Value(Object{{"a", List{1, -2.5, 1000, 18446744073709551615.0}},
                                {"b", Object{{"c", Value{}}, {"d", true}}},
                                {"e", "\xC3\xA9\n"}}));
}

TEST(Json, KeepsMembersInOrderAndTwice) {
  const Value value = parsed(R"({"z": 1, "a": 2, "z": 3})");
  EXPECT_EQ(value, Value(Object{{"z", 1}, {"a", 2}, {"z", 3}}));
}

TEST(Json, TellsLineAndColumnInCharacters) {
  EXPECT_TRUE(refusal("{\n  \"é\": tru }").starts_with("line 2, column 11")) << refusal("{\n  \"é\": tru }");
  EXPECT_TRUE(refusal("[1,\n2,\n]").starts_with("line 3, column 1")) << refusal("[1,\n2,\n]");
  EXPECT_TRUE(refusal("").starts_with("line 1, column 1"));
  EXPECT_TRUE(refusal("{} {}").starts_with("line 1, column 4"));
}

TEST(Json, RefusesWhatNoNumberHolds) {
  for (const char* text : {"1e999", "-1e999", "NaN", "Infinity", "-Infinity", "nan", "0x10", "01", "+1", ".5"})
    EXPECT_NE(refusal(text), "") << text;
  EXPECT_NE(refusal("[1e999]").find(R"("1e999" is too large)"), std::string::npos) << refusal("[1e999]");
}

TEST(Json, RefusesTextThatIsNotUtf8) {
  for (const char* text : {"\"\xE9\"", "\"\xC0\x80\"", "\"\xED\xA0\x80\"", "\"\\ud800\"", "\"a\nb\""})
    EXPECT_NE(refusal(text), "") << text;
}

TEST(Json, DepthIsBounded) {
  const auto nested = [](size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
  EXPECT_TRUE(parse_json(nested(kDeepest), "t").has_value());
  EXPECT_EQ(parse_json(nested(kDeepest + 1), "t").error().kind, ErrorKind::kTooLarge);
  EXPECT_EQ(parse_json(std::string(1'000'000, '['), "t").error().kind, ErrorKind::kTooLarge);
}

TEST(Json, CountOfValuesIsBounded) {
  std::string text = "[";
  for (size_t i = 0; i < kMostValues; ++i) text += "1,";
  text.back() = ']';
  const auto value = parse_json(text, "t");
  ASSERT_FALSE(value.has_value());
  EXPECT_EQ(value.error().kind, ErrorKind::kTooLarge);
}

TEST(Json, NumbersReadBackAsTheyWere) {
  constexpr unsigned kSeed = 20261125;
  std::mt19937_64 random(kSeed);
  for (int i = 0; i < 20000; ++i) {
    const auto bits = random();
    double number = 0;
    static_assert(sizeof bits == sizeof number);
    std::memcpy(&number, &bits, sizeof number);
    if (!std::isfinite(number)) continue;
    EXPECT_EQ(parsed(print_number(number)), Value(number)) << "seed " << kSeed << " " << print_number(number);
  }
}

TEST(Json, NumbersAreShort) {
  EXPECT_EQ(print_number(12), "12");
  EXPECT_EQ(print_number(0.1), "0.1");
  EXPECT_EQ(print_number(0.00001), "0.00001");
  EXPECT_EQ(print_number(-0.0), "0");
  EXPECT_EQ(print_number(1e300), "1e+300");
  EXPECT_EQ(print_number(std::numeric_limits<double>::infinity()), "null");
}

TEST(Json, TextsReadBackAsTheyWere) {
  const std::string text = "quote \" slash \\ line\n tab\t bell\x07 delete\x7F é 漢 😀";
  EXPECT_EQ(parsed(print_text(text)), Value(text));
}

TEST(Json, ShortObjectsAndPointsStandOnOneLine) {
  const Value value = Object{{"at", List{1, 2}}, {"cameras", List{Object{{"name", "a"}}, Object{{"name", "b"}}}}};
  EXPECT_EQ(print_json(value),
            "{\n  \"at\": [1, 2],\n  \"cameras\": [\n    { \"name\": \"a\" },\n    { \"name\": \"b\" }\n  ]\n}\n");
}

TEST(Json, LongListsOfPointsFillLinesOfAtMost120Characters) {
  List points;
  for (int i = 0; i < 100; ++i) points.push_back(List{i + 0.123456789, -i});
  const std::string text = print_json(Object{{"line", points}});
  size_t start = 0, lines = 0;
  for (size_t end = text.find('\n'); end != std::string::npos; start = end + 1, end = text.find('\n', start), ++lines)
    EXPECT_LE(end - start, 120U) << text.substr(start, end - start);
  EXPECT_LT(lines, 30U);
  EXPECT_EQ(parsed(text), Value(Object{{"line", points}}));
}

}  // namespace
}  // namespace sightfall::file
