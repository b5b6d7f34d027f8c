// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/http_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::serve {
namespace {

using ::testing::HasSubstr;
using Step = RequestReader::Step;

constexpr size_t kLargestHead = 1000;

/// The requests that bytes make in pieces of that length, each with its body; the status of what was no request.
std::vector<std::string> read(std::string_view bytes, size_t piece, size_t largest_body = 1000) {
  RequestReader reader(kLargestHead);
  std::vector<std::string> found;
  while (true) {
    const auto step = reader.next();
    if (!step) return found.push_back(std::to_string(step.error().status)), found;
    if (*step == Step::kHead) reader.allow_body(largest_body);
    if (*step == Step::kHead && reader.has_body()) continue;
    if (*step == Step::kMore) {
      if (bytes.empty()) return found;
      reader.put(bytes.substr(0, piece));
      bytes.remove_prefix(std::min(piece, bytes.size()));
      continue;
    }
    const Request request = reader.take();
    found.push_back(request.method + ' ' + request.target.path() + ' ' + request.body);
    reader.begin();
  }
}

TEST(HttpText, RequestsAreTheSameInWhateverPiecesTheyCome) {
  const std::string bytes =
      "GET /a HTTP/1.1\r\nHost: a\r\n\r\n"
      "POST /b HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\n\r\nhello"
      "POST /c HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\n3\r\nabc\r\n2;x\r\nde\r\n0\r\n\r\n"
      "GET /d HTTP/1.1\r\nHost: a\r\n\r\n";
  const std::vector<std::string> requests{"GET /a ", "POST /b hello", "POST /c abcde", "GET /d "};
  for (size_t piece = 1; piece <= bytes.size(); ++piece) EXPECT_EQ(read(bytes, piece), requests) << piece;
}

TEST(HttpText, AHeadAndABodyHaveTheirLimits) {
  const auto head = [](size_t bytes) {
    return "GET / HTTP/1.1\r\nHost: a\r\nX: " + std::string(bytes, 'x') + "\r\n\r\n";
  };
  const std::string pieces =
      "POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\n3\r\nabc\r\n2\r\nde\r\n0\r\n\r\n";
  for (const size_t piece : {size_t{1}, size_t{7}, size_t{10'000}}) {
    EXPECT_EQ(read(head(kLargestHead - 100), piece).back(), "GET / ");
    EXPECT_EQ(read(head(kLargestHead), piece).back(), "431");
    EXPECT_EQ(read(std::string(2 * kLargestHead, 'A'), piece).back(), "431");
    EXPECT_EQ(read(pieces, piece, 5).back(), "POST / abcde");
    EXPECT_EQ(read(pieces, piece, 4).back(), "413");
  }
}

TEST(HttpText, WhatCouldBeReadInTwoWaysIsRefused) {
  for (const char* rest :
       {"\r\n", "Host: a\r\nHost: a\r\n\r\n", "Host: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n",
        "Host: a\r\nContent-Length: 1\r\nTransfer-Encoding: chunked\r\n\r\n", "Host : a\r\n\r\n"})
    EXPECT_EQ(read(std::string("POST / HTTP/1.1\r\n") + rest, 10'000).back(), "400") << rest;
}

TEST(HttpText, AnAnswersHeadSaysHowLongItIsAndWhetherItIsTheLast) {
  const Response response{200, {{"X-Own", "1"}}, {}};
  const std::string head = head_text(response, {{"X-Every", "2"}}, 12, false);
  EXPECT_THAT(head, ::testing::StartsWith("HTTP/1.1 200 OK\r\n"));
  for (const char* line : {"\r\nX-Own: 1\r\n", "\r\nX-Every: 2\r\n", "\r\nContent-Length: 12\r\n"})
    EXPECT_THAT(head, HasSubstr(line));
  EXPECT_THAT(head, ::testing::EndsWith("\r\n\r\n"));
  EXPECT_THAT(head, ::testing::Not(HasSubstr("Connection:")));
  EXPECT_THAT(head_text(response, {}, 0, true), HasSubstr("\r\nConnection: close\r\n"));
  EXPECT_THAT(head_text({304, {}, {}}, {}, 0, false), ::testing::Not(HasSubstr("Content-Length")))
      << "RFC 9110, 15.4.5";
}

TEST(HttpText, AHandshakeIsAsTheStandardHasIt) {
  // RFC 6455, sections 1.2 and 4.2.1
  const std::vector<Header> right{{"Upgrade", "websocket"},
                                  {"Connection", "keep-alive, Upgrade"},
                                  {"Sec-WebSocket-Key", "dGhlIHNhbXBsZSBub25jZQ=="},
                                  {"Sec-WebSocket-Version", "13"}};
  EXPECT_EQ(web_socket_key({"GET", {}, right, {}, {}}), "dGhlIHNhbXBsZSBub25jZQ==");
  EXPECT_FALSE(web_socket_key({"POST", {}, right, {}, {}}).has_value());
  for (size_t i = 0; i < right.size(); ++i) {
    auto without = right, wrong = right;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    wrong[i].value = "other";
    EXPECT_FALSE(web_socket_key({"GET", {}, without, {}, {}}).has_value()) << right[i].name;
    EXPECT_FALSE(web_socket_key({"GET", {}, wrong, {}, {}}).has_value()) << right[i].name;
  }
}

}  // namespace
}  // namespace sightfall::serve
