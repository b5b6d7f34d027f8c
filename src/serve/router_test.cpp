// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/router.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::serve {
namespace {

using ::testing::HasSubstr;

Request head(const std::string& method, const std::string& path) { return {method, *parse_target(path), {}, {}, {}}; }

class RouterTest : public ::testing::Test {
 protected:
  RouterTest() {
    const Handler nothing = [](const Request&, const Caller&) {};
    router_.add("GET", "/api/site", nothing);
    router_.add("PUT", "/api/plan", nothing, 40);
    router_.add("GET", "/api/plan/*", nothing);
    router_.add("DELETE", "/api/plan/*", nothing);
  }
  std::string found(const std::string& method, const std::string& path) const {
    const auto result = router_.find(head(method, path));
    if (const auto* route = std::get_if<const Route*>(&result))
      return (*route)->method + " " + (*route)->segments.back();
    return std::to_string(std::get<Response>(result).status);
  }

  Router router_;
};

TEST_F(RouterTest, FindsByMethodAndPath) {
  EXPECT_EQ(found("GET", "/api/site?x=1"), "GET site");
  EXPECT_EQ(found("HEAD", "/api/site"), "GET site");
  EXPECT_EQ(found("PUT", "/api/plan"), "PUT plan");
  EXPECT_EQ(found("GET", "/api/plan/yard.png"), "GET *");
  EXPECT_EQ(found("DELETE", "/api/plan/yard.png"), "DELETE *");
}

TEST_F(RouterTest, SaysWhenThereIsNothingOrAnotherMethod) {
  for (const char* path : {"/", "/api", "/api/site/x", "/api/plan/a/b", "/API/site"})
    EXPECT_EQ(found("GET", path), "404");
  EXPECT_EQ(found("GET", "/api/plan"), "405");
  EXPECT_EQ(found("get", "/api/site"), "405");
  const auto response = std::get<Response>(router_.find(head("POST", "/api/plan/yard.png")));
  EXPECT_EQ(response.headers.back().name, "Allow");
  EXPECT_EQ(response.headers.back().value, "GET, DELETE");
}

TEST_F(RouterTest, BodiesAreBoundedByPath) {
  EXPECT_EQ(std::get<const Route*>(router_.find(head("PUT", "/api/plan")))->largest_body, 40U);
  EXPECT_EQ(std::get<const Route*>(router_.find(head("GET", "/api/site")))->largest_body, kLargestBody);
}

TEST(Responses, AreJsonThatNobodyKeeps) {
  const Response response = error_response(404, "a \"quoted\" <name>");
  EXPECT_EQ(response.status, 404);
  EXPECT_THAT(response.body, HasSubstr(R"("a \"quoted\" <name>")"));
  EXPECT_EQ(response.headers[0].value, "application/json; charset=utf-8");
  EXPECT_EQ(response.headers[1].value, "no-store");
}

}  // namespace
}  // namespace sightfall::serve
