// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/target.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::serve {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Pair;

TEST(Target, IsTakenApartAndDecodedOnce) {
  const auto target = parse_target("/api/plan/yard%20plan%2525.png?name=a%26b+c&page=2&flag");
  ASSERT_TRUE(target);
  EXPECT_THAT(target->segments, ElementsAre("api", "plan", "yard plan%25.png"));
  EXPECT_THAT(target->values, ElementsAre(Pair("name", "a&b c"), Pair("page", "2"), Pair("flag", "")));
  EXPECT_EQ(target->value("page"), "2");
  EXPECT_EQ(target->value("none"), std::nullopt);
  EXPECT_EQ(target->path(), "/api/plan/yard plan%25.png");
}

TEST(Target, KeepsNamesOfAnyScript) {
  const auto target = parse_target("/%D0%B4%D0%B2%D0%BE%D1%80.png");
  ASSERT_TRUE(target);
  EXPECT_THAT(target->segments, ElementsAre("двор.png"));
}

TEST(Target, OfTheRootHasNoSegments) {
  ASSERT_TRUE(parse_target("/"));
  EXPECT_THAT(parse_target("/")->segments, IsEmpty());
  EXPECT_EQ(parse_target("/?a=1")->path(), "/");
}

class Refused : public ::testing::TestWithParam<const char*> {};

TEST_P(Refused, LeadsNowhere) { EXPECT_EQ(parse_target(GetParam()), std::nullopt) << GetParam(); }

INSTANTIATE_TEST_SUITE_P(Target, Refused,
                         ::testing::Values("", "x", "*", "http://localhost/x", "/..", "/../etc/passwd", "/a/../b",
                                           "/a/.", "/%2e%2e/x", "/%2E%2e", "/.%2e/x", "/..%2fx", "/..%2Fx",
                                           "/a%2f..%2fb", "/..%5cx", "/a\\b", "/..\\..\\x", "/.hidden", "/a//b", "//a",
                                           "/a/", "/a%00b", "/a%0ab", "/a%7f", "/a%c2%85", "/%c0%ae%c0%ae/x",
                                           "/%e0%80%ae", "/%ff", "/a%", "/a%2", "/a%zz", "/a b", "/a\tb", "/a#b",
                                           "/a?x=%00", "/a?x=%ff", "/a?%"));

}  // namespace

bool operator==(const Target& a, const Target& b) { return a.segments == b.segments && a.values == b.values; }

}  // namespace sightfall::serve
