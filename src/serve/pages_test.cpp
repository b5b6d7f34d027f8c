// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/pages.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::serve {
namespace {

using ::testing::HasSubstr;

Request get(const std::string& path, std::vector<Header> headers = {}) {
  return {"GET", *parse_target(path), std::move(headers), {}, {}};
}

std::string header_of(const std::optional<Response>& response, const std::string& name) {
  if (response)
    for (const Header& header : response->headers)
      if (header.name == name) return header.value;
  return "";
}

const Pages& three() {
  static const Pages kPages({{"index.html", "<p>page</p>"},
                             {"assets/index-1a2b.js", "script"},
                             {"assets/index-1a2b.js.gz", "compressed"},
                             {"icon.svg", "<svg/>"}});
  return kPages;
}

TEST(Pages, TheRootIsTheIndex) {
  const auto page = three().find(get("/"));
  ASSERT_TRUE(page);
  EXPECT_EQ(page->body, "<p>page</p>");
  EXPECT_EQ(header_of(page, "Content-Type"), "text/html; charset=utf-8");
  EXPECT_EQ(three().find(get("/index.html"))->body, page->body);
}

TEST(Pages, OnlyItsOwnFilesAreFound) {
  for (const char* path : {"/etc/passwd", "/assets", "/index.html.gz", "/assets/index-1a2b.js.gz", "/Index.html"})
    EXPECT_FALSE(three().find(get(path))) << path;
}

TEST(Pages, HashedFilesAreKeptForGoodTheOthersAskedForAnew) {
  EXPECT_THAT(header_of(three().find(get("/assets/index-1a2b.js")), "Cache-Control"), HasSubstr("immutable"));
  EXPECT_EQ(header_of(three().find(get("/")), "Cache-Control"), "no-cache");
  EXPECT_EQ(header_of(three().find(get("/icon.svg")), "Cache-Control"), "no-cache");
  EXPECT_EQ(header_of(three().find(get("/icon.svg")), "Content-Type"), "image/svg+xml");
}

TEST(Pages, WhatTheBrowserHasIsNotSentAgain) {
  const std::string tag = header_of(three().find(get("/")), "ETag");
  const auto again = three().find(get("/", {{"If-None-Match", tag}}));
  EXPECT_EQ(again->status, 304);
  EXPECT_EQ(again->body, "");
  EXPECT_EQ(three().find(get("/", {{"If-None-Match", "\"0\""}}))->status, 200);
  EXPECT_NE(tag, header_of(three().find(get("/icon.svg")), "ETag"));
}

TEST(Pages, AreCompressedForWhoTakesIt) {
  const auto compressed = three().find(get("/assets/index-1a2b.js", {{"Accept-Encoding", "gzip, deflate, br"}}));
  EXPECT_EQ(compressed->body, "compressed");
  EXPECT_EQ(header_of(compressed, "Content-Encoding"), "gzip");
  for (const char* accepted : {"br", "gzip;q=0"}) {
    const auto plain = three().find(get("/assets/index-1a2b.js", {{"Accept-Encoding", accepted}}));
    EXPECT_EQ(plain->body, "script") << accepted;
    EXPECT_EQ(header_of(plain, "Content-Encoding"), "");
  }
  EXPECT_EQ(three().find(get("/", {{"Accept-Encoding", "gzip"}}))->body, "<p>page</p>") << "it has no compressed form";
}

TEST(Pages, TheProgramHasAPageOrSaysHowToMakeIt) {
  const auto page = Pages().find(get("/"));
  ASSERT_TRUE(page);
  EXPECT_THAT(page->body, HasSubstr("Sightfall"));
}

}  // namespace
}  // namespace sightfall::serve
