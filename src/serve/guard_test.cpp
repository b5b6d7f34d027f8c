// SPDX-License-Identifier: GPL-3.0-or-later
// Every rule with a request that passes but for it.
#include "serve/guard.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <set>

namespace sightfall::serve {
namespace {

using namespace std::chrono_literals;
using ::testing::HasSubstr;
using ::testing::MatchesRegex;

constexpr uint16_t kPort = 8246;

Request head_of(const std::string& method, const std::string& path, std::vector<Header> headers,
                const std::string& local = "127.0.0.1") {
  return {method, *parse_target(path), std::move(headers), {}, local};
}

int status_of(const Guard& guard, const Request& head) {
  const auto refusal = guard.refusal(head);
  return refusal ? refusal->status : 200;
}

/// Behind a guard of loopback alone.
class OnLoopback : public ::testing::Test {
 protected:
  OnLoopback() { guard_.set_port(kPort); }
  int get(const std::string& path, std::vector<Header> headers) const {
    return status_of(guard_, head_of("GET", path, std::move(headers)));
  }
  int post(std::vector<Header> headers) const {
    return status_of(guard_, head_of("POST", "/api/edits", std::move(headers)));
  }

  Guard guard_{{}};
};

TEST_F(OnLoopback, ItsOwnNamesAreHosts) {
  for (const char* host : {"localhost:8246", "LocalHost:8246", "127.0.0.1:8246", "[::1]:8246"})
    EXPECT_EQ(get("/api/site", {{"Host", host}}), 200) << host;
}

TEST_F(OnLoopback, NoOtherNameIsAHostSoThatRebindingItHelpsNobody) {
  for (const char* host :
       {"evil.example:8246", "evil.example", "localhost", "localhost:80", "localhost:82460", "localhost:8246:8246",
        "localhost.evil.example:8246", "evil.example:8246@localhost:8246", "127.0.0.2:8246", "127.1:8246",
        "2130706433:8246", "::1:8246", "[::ffff:127.0.0.1]:8246", "192.168.1.20:8246", " localhost:8246", ":8246", ""})
    EXPECT_EQ(get("/api/site", {{"Host", host}}), 403) << host;
  EXPECT_EQ(get("/", {{"Host", "evil.example:8246"}}), 403) << "the page itself neither";
  EXPECT_EQ(get("/api/site", {}), 403);
}

TEST_F(OnLoopback, AnOriginIsOurs) {
  const Header host{"Host", "localhost:8246"};
  EXPECT_EQ(get("/api/events", {host, {"Origin", "http://localhost:8246"}}), 200);
  for (const char* origin : {"http://evil.example", "https://localhost:8246", "http://localhost:8247", "null", "",
                             "http://127.0.0.1:8246", "http://localhost:8246.evil.example"})
    EXPECT_EQ(get("/api/events", {host, {"Origin", origin}}), 403) << origin;
}

TEST_F(OnLoopback, AWebSocketHasAnOriginSinceBrowsersOpenOneForAnyPage) {
  const Header host{"Host", "localhost:8246"}, upgrade{"Upgrade", "websocket"};
  EXPECT_EQ(get("/api/events", {host, upgrade, {"Origin", "http://localhost:8246"}}), 200);
  EXPECT_EQ(get("/api/events", {host, upgrade, {"Origin", "http://evil.example"}}), 403);
  EXPECT_EQ(get("/api/events", {host, upgrade}), 403);
  EXPECT_EQ(get("/api/events", {host, {"Upgrade", "h2c, WebSocket"}}), 403);
}

TEST_F(OnLoopback, ABrowserThatSaysItComesFromElsewhereIsBelieved) {
  const Header host{"Host", "localhost:8246"};
  for (const char* site : {"same-origin", "none"})
    EXPECT_EQ(get("/api/site", {host, {"Sec-Fetch-Site", site}}), 200) << site;
  for (const char* site : {"cross-site", "same-site"}) {
    EXPECT_EQ(get("/api/site", {host, {"Sec-Fetch-Site", site}}), 403) << site;
    EXPECT_EQ(get("/", {host, {"Sec-Fetch-Site", site}}), 200) << "a link to the page may be followed";
  }
}

TEST_F(OnLoopback, WhatChangesSomethingNamesItsTab) {
  const Header host{"Host", "localhost:8246"};
  EXPECT_EQ(post({host, {kTabHeader, "a1-B_2"}}), 200);
  EXPECT_EQ(post({host}), 403);
  for (const std::string& tab : {std::string(), std::string("two words"), std::string("<b>"), std::string(65, 'a')})
    EXPECT_EQ(post({host, {kTabHeader, tab}}), 403) << tab;
  EXPECT_EQ(status_of(guard_, head_of("OPTIONS", "/api/edits", {host})), 403);
}

TEST_F(OnLoopback, NobodyPairs) {
  const auto pairing = guard_.pair("ABCD-EFGH");
  ASSERT_FALSE(pairing.has_value());
  EXPECT_EQ(pairing.error().status, 400);
}

/// Behind a guard of a network, with a clock that the test turns.
class OnANetwork : public ::testing::Test {
 protected:
  OnANetwork() { guard_.set_port(kPort); }
  int get(const std::string& path, const std::string& cookie = "",
          const std::string& host = "192.168.1.20:8246") const {
    std::vector<Header> headers{{"Host", host}};
    if (!cookie.empty()) headers.push_back({"Cookie", cookie});
    return status_of(guard_, head_of("GET", path, std::move(headers), "192.168.1.20"));
  }
  int pair_status(const std::string& code) {
    const auto cookie = guard_.pair(code);
    return cookie ? 200 : cookie.error().status;
  }
  std::string paired() {
    const auto cookie = guard_.pair(shown_.back());
    EXPECT_TRUE(cookie.has_value());
    return cookie ? cookie->value.substr(0, cookie->value.find(';')) : "";
  }

  std::vector<std::string> shown_;
  Guard::Moment now_{};
  Guard guard_{{true,
                {"192.168.1.20", "yard.example"},
                [this](const auto& code) { shown_.push_back(code); },
                [this] { return now_; }}};
};

TEST_F(OnANetwork, ItsAddressAndGivenNamesAreHostsToo) {
  const std::string cookie = paired();
  for (const char* host : {"192.168.1.20:8246", "yard.example:8246", "localhost:8246"})
    EXPECT_EQ(get("/api/site", cookie, host), 200) << host;
  for (const char* host : {"evil.example:8246", "192.168.1.21:8246", "yard.example"})
    EXPECT_EQ(get("/api/site", cookie, host), 403) << host;
}

TEST_F(OnANetwork, ListeningEverywhereTheAddressThatWasAskedIsAHost) {
  Guard everywhere{{true, {}}};
  everywhere.set_port(kPort);
  EXPECT_EQ(status_of(everywhere, head_of("GET", "/", {{"Host", "10.0.0.7:8246"}}, "10.0.0.7")), 200);
  EXPECT_EQ(status_of(everywhere, head_of("GET", "/", {{"Host", "[fe80::7]:8246"}}, "fe80::7")), 200);
  EXPECT_EQ(status_of(everywhere, head_of("GET", "/", {{"Host", "10.0.0.8:8246"}}, "10.0.0.7")), 403);
}

TEST_F(OnANetwork, OnlyThePageAndPairingAreFree) {
  EXPECT_EQ(get("/"), 200);
  EXPECT_EQ(get("/assets/index.js"), 200);
  EXPECT_EQ(get("/api/site"), 401);
  EXPECT_EQ(
      status_of(
          guard_,
          head_of("GET", "/api/events",
                  {{"Host", "192.168.1.20:8246"}, {"Origin", "http://192.168.1.20:8246"}, {"Upgrade", "websocket"}},
                  "192.168.1.20")),
      401);
  EXPECT_EQ(get("/api/pair"), 401);
  EXPECT_EQ(get("/api/site", "", "localhost:8246"), 401) << "loopback too: something may pass requests on to it";
  const Request pairing =
      head_of("POST", "/api/pair", {{"Host", "192.168.1.20:8246"}, {kTabHeader, "a"}}, "192.168.1.20");
  EXPECT_EQ(status_of(guard_, pairing), 200);
}

TEST_F(OnANetwork, ACookieOpensAndNothingLikeItDoes) {
  const std::string cookie = paired();
  EXPECT_THAT(cookie, MatchesRegex("sightfall_8246=[0-9a-f]{64}"));
  EXPECT_EQ(get("/api/site", cookie), 200);
  EXPECT_EQ(get("/api/site", "other=1; " + cookie + "; more=2"), 200);
  std::string wrong = cookie;
  wrong.back() = wrong.back() == '0' ? '1' : '0';
  EXPECT_EQ(get("/api/site", wrong), 401);
  EXPECT_EQ(get("/api/site", cookie.substr(0, cookie.size() - 1)), 401);
  EXPECT_EQ(get("/api/site", "sightfall_8246="), 401);
  EXPECT_EQ(get("/api/site", "sightfall_8247" + cookie.substr(cookie.find('='))), 401);
}

TEST_F(OnANetwork, TheCookieIsNoBusinessOfScriptsOrOtherSites) {
  const auto cookie = guard_.pair(shown_.back());
  ASSERT_TRUE(cookie.has_value());
  EXPECT_EQ(cookie->name, "Set-Cookie");
  EXPECT_THAT(cookie->value, HasSubstr("; HttpOnly; SameSite=Strict"));
}

TEST_F(OnANetwork, ACodeIsReadAsPeopleTypeIt) {
  EXPECT_THAT(shown_.back(), MatchesRegex("[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{4}"));
  std::string typed;
  for (const char c : shown_.back()) typed += c == '-' ? ' ' : static_cast<char>(std::tolower(c));
  EXPECT_EQ(pair_status(typed), 200);
}

TEST_F(OnANetwork, ACodeIsGoodOnce) {
  const std::string code = shown_.back();
  EXPECT_EQ(pair_status(code), 200);
  ASSERT_EQ(shown_.size(), 2U);
  EXPECT_NE(shown_.back(), code);
  EXPECT_EQ(pair_status(code), 401);
  EXPECT_EQ(pair_status(shown_.back()), 200);
}

TEST_F(OnANetwork, ACodeIsGoodForTenMinutes) {
  const std::string code = shown_.back();
  now_ += kCodeLasts - 1s;
  EXPECT_EQ(pair_status("AAAA-AAAA"), 401);
  EXPECT_EQ(shown_.size(), 1U);
  now_ += 1s;
  EXPECT_EQ(pair_status(code), 401);
  ASSERT_EQ(shown_.size(), 2U) << "a new one stands there for who came too late";
  EXPECT_EQ(pair_status(shown_.back()), 200);
}

TEST_F(OnANetwork, FiveWrongCodesClosePairingForAMinuteForEverybody) {
  for (int i = 0; i < 5; ++i) EXPECT_EQ(pair_status("AAAA-AAAA"), 401) << i;
  EXPECT_EQ(pair_status("AAAA-AAAA"), 429);
  EXPECT_EQ(pair_status(shown_.back()), 429) << "the right one too";
  now_ += kPairingClosed - 1s;
  EXPECT_EQ(pair_status(shown_.back()), 429);
  now_ += 1s;
  EXPECT_EQ(pair_status("AAAA-AAAA"), 401);
  EXPECT_EQ(pair_status(shown_.back()), 200);
}

TEST_F(OnANetwork, TryingCodesWithoutEndGetsAtMostFiveAMinute) {
  int tried = 0;
  for (int second = 0; second < 600; ++second, now_ += 1s)
    for (int i = 0; i < 10; ++i) tried += pair_status("AAAA-AAAB") == 401 ? 1 : 0;
  EXPECT_LE(tried, 55);
  EXPECT_GE(tried, 45);
}

TEST_F(OnANetwork, TheOldestOfTooManyPairsAnew) {
  const std::string first = paired(), second = paired();
  for (size_t i = 0; i + 1 < kMostPaired; ++i) paired();
  EXPECT_EQ(get("/api/site", first), 401);
  EXPECT_EQ(get("/api/site", second), 200);
}

TEST_F(OnANetwork, CodesAndCookiesDiffer) {
  std::set<std::string> codes, cookies;
  for (int i = 0; i < 200; ++i) cookies.insert(paired());
  codes.insert(shown_.begin(), shown_.end());
  EXPECT_EQ(codes.size(), 201U);
  EXPECT_EQ(cookies.size(), 200U);
}

}  // namespace
}  // namespace sightfall::serve
