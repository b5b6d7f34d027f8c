// SPDX-License-Identifier: GPL-3.0-or-later
// The wire over sockets, with the page, the desk and the guard as `sightfall serve` has them.
#include "serve/workbench.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "file/json.h"
#include "serve/map_import.h"
#include "serve/test_client.h"

namespace sightfall::serve {
namespace {

using namespace std::chrono_literals;
using serve::testing::Answer;
using serve::testing::ask;
using serve::testing::Client;
using serve::testing::handshake_text;
using serve::testing::request_text;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* kTab = "X-Sightfall-Tab: mine\r\n";

/// A workbench on a copy of a small site, in a folder of its own.
class WorkbenchTest : public ::testing::Test {
 protected:
  WorkbenchTest() : folder_{std::filesystem::temp_directory_path() / ("sightfall_" + name())} {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    std::filesystem::copy(SIGHTFALL_SOURCE_DIR "/tests/case/files/shed.sightfall.json", folder_);
    WorkbenchOptions options;
    options.site = (folder_ / "shed.sightfall.json").string();
    options.port = 0;
    auto opened = Workbench::open(options);
    if (!opened) throw std::runtime_error(to_line(opened.error().front()));
    workbench_ = std::move(*opened);
    thread_ = std::thread([this] { workbench_->run(); });
  }
  ~WorkbenchTest() override {
    workbench_->stop();
    thread_.join();
    workbench_.reset();
    std::filesystem::remove_all(folder_);
  }

  static std::string name() { return ::testing::UnitTest::GetInstance()->current_test_info()->name(); }
  uint16_t port() const { return workbench_->port(); }
  Answer get(const std::string& path, const std::string& headers = "") const {
    return ask(port(), "GET", path, headers);
  }
  Answer post(const std::string& path, const std::string& body, const std::string& headers = kTab) const {
    return ask(port(), "POST", path, headers, body);
  }
  static std::string rename(const std::string& was, const std::string& now) {
    return R"({"words": "name it", "changes": [{"at": ["name"], "was": ")" + was + R"(", "now": ")" + now + R"("}]})";
  }
  std::string site_name() const {
    const std::string body = get("/api/site").body;
    const auto site = file::parse_json(body, "site");
    for (const auto& member : site->get<file::Object>())
      if (member.name == "document")
        for (const auto& field : member.value.get<file::Object>())
          if (field.name == "name") return field.value.get<std::string>();
    return "";
  }

  std::filesystem::path folder_;
  std::unique_ptr<Workbench> workbench_;
  std::thread thread_;
};

TEST_F(WorkbenchTest, ServesThePageAndTheWire) {
  EXPECT_THAT(get("/").body, HasSubstr("<html"));
  EXPECT_THAT(get("/api/start").body, HasSubstr("shed.sightfall.json"));
  EXPECT_THAT(get("/api/site").body, HasSubstr("\"revision\""));
  EXPECT_THAT(get("/api/schema").body, HasSubstr("json-schema.org"));
  EXPECT_THAT(get("/api/history").body, HasSubstr("\"edits\""));
  EXPECT_THAT(get("/api/stock").body, HasSubstr("\"level_tables\""));
}

TEST_F(WorkbenchTest, EveryAnswerHasTheSecurityHeaders) {
  for (const Answer& answer : {get("/"), get("/api/site"), get("/none"), get("/api/none"), post("/api/edits", "{"),
                               get("/api/site", "Origin: http://evil.example\r\n"), get("/%zz")}) {
    EXPECT_THAT(answer.headers.at("content-security-policy"), HasSubstr("default-src 'self'")) << answer.status;
    EXPECT_EQ(answer.headers.at("x-content-type-options"), "nosniff");
    EXPECT_EQ(answer.headers.at("referrer-policy"), "no-referrer");
    EXPECT_EQ(answer.headers.at("cross-origin-opener-policy"), "same-origin");
    EXPECT_EQ(answer.headers.at("cross-origin-resource-policy"), "same-origin");
  }
  EXPECT_EQ(get("/api/site").headers.at("cache-control"), "no-store");
}

TEST_F(WorkbenchTest, SaysWhatThereIsNotAndWhichMethodsThereAre) {
  EXPECT_EQ(get("/api/none").status, 404);
  EXPECT_EQ(get("/none").status, 404);
  const Answer answer = ask(port(), "DELETE", "/api/site", kTab);
  EXPECT_EQ(answer.status, 405);
  EXPECT_EQ(answer.headers.at("allow"), "GET");
  EXPECT_EQ(get("/api/edits").status, 405);
  EXPECT_EQ(ask(port(), "HEAD", "/api/site").status, 200);
}

TEST_F(WorkbenchTest, ErrorsHaveTheWiresShape) {
  const Answer answer = post("/api/edits", R"({"words": )");
  EXPECT_EQ(answer.status, 400);
  const auto body = file::parse_json(answer.body, "answer");
  ASSERT_TRUE(body.has_value());
  const auto& errors = body->get<file::Object>().front();
  EXPECT_EQ(errors.name, "errors");
  const auto& error = errors.value.get<file::List>().front().get<file::Object>();
  ASSERT_EQ(error.size(), 4U);
  EXPECT_EQ(error[0].name, "text");
  EXPECT_EQ(error[1].name, "file");
  EXPECT_EQ(error[2].name, "object");
  EXPECT_EQ(error[3].name, "field");
}

TEST_F(WorkbenchTest, AForeignPageReachesNothing) {
  const std::string host = "Host: evil.example:" + std::to_string(port()) + "\r\n";
  const std::string was = site_name(), edit = rename(was, "taken over");
  EXPECT_EQ(get("/api/site", host).status, 403) << "a name that was bound anew to this machine";
  EXPECT_EQ(get("/", host).status, 403);
  EXPECT_EQ(post("/api/edits", edit, host + kTab).status, 403);
  EXPECT_EQ(post("/api/edits", edit, std::string(kTab) + "Origin: http://evil.example\r\n").status, 403);
  EXPECT_EQ(post("/api/edits", edit, "Content-Type: text/plain\r\n").status, 403) << "what a form can send";
  EXPECT_EQ(site_name(), was);
  EXPECT_EQ(post("/api/edits", edit).status, 200) << "the same from the page itself";
  EXPECT_EQ(site_name(), "taken over");
}

TEST_F(WorkbenchTest, AForeignPageHearsNothing) {
  const std::string own = "Origin: http://localhost:" + std::to_string(port()) + "\r\n";
  const auto status = [&](const std::string& text) {
    Client client(port());
    client.send(text);
    const Answer answer = client.read();
    EXPECT_THAT(answer.body, Not(HasSubstr("hello")));
    return answer.status;
  };
  // Browsers open a WebSocket to any server for any page, and say whose it is.
  for (const char* origin : {"http://evil.example", "https://localhost:", "null", "", "file://", "http://localhost"})
    EXPECT_EQ(status(handshake_text(port(), "/api/events", std::string("Origin: ") + origin + "\r\n")), 403) << origin;
  const std::string bound = "evil.example:" + std::to_string(port()) + "\r\n";
  EXPECT_EQ(status(handshake_text(port(), "/api/events", "Host: " + bound + "Origin: http://" + bound)), 403)
      << "a name that was bound anew to this machine";
  EXPECT_EQ(status(handshake_text(port(), "/api/events", own + "Sec-Fetch-Site: cross-site\r\n")), 403);
  EXPECT_EQ(status(request_text(port(), "GET", "/api/events",
                                "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
                                "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n")),
            403)
      << "without Origin";
  EXPECT_EQ(status(request_text(port(), "GET", "/api/events")), 400) << "without WebSocket";
  EXPECT_EQ(status(handshake_text(port(), "/api/events")), 101) << "the page's own";
}

TEST_F(WorkbenchTest, NoPathLeadsOutOfTheFolder) {
  std::ofstream(folder_.parent_path() / "outside.png") << "\x89PNG\r\n\x1a\n secret";
  std::ofstream(folder_ / "inside.png") << "\x89PNG\r\n\x1a\n plan";
  EXPECT_EQ(get("/api/plan/inside.png").status, 200);
  for (const char* path : {"/api/plan/../outside.png",
                           "/api/plan/..%2foutside.png",
                           "/api/plan/..%2Foutside.png",
                           "/api/plan/%2e%2e%2foutside.png",
                           "/api/plan/%2e%2e/outside.png",
                           "/api/plan/..%5coutside.png",
                           "/api/plan/..\\outside.png",
                           "/api/plan/..%252foutside.png",
                           "/api/plan/..%c0%afoutside.png",
                           "/api/plan/....//outside.png",
                           "/api/plan/%2fetc%2fpasswd",
                           "/api/plan//etc/passwd",
                           "/api/plan/.",
                           "/api/plan/..",
                           "/api/plan/inside.png%00.txt",
                           "/api/plan/shed.sightfall.json",
                           "/../../etc/passwd",
                           "/..%2f..%2fetc/passwd",
                           "/assets/../../../etc/passwd",
                           "/api/../api/site",
                           "//etc/passwd",
                           "/api/plan/file:%2f%2f%2fetc%2fpasswd"}) {
    const Answer answer = get(path);
    EXPECT_THAT(answer.status, AnyOf(400, 404)) << path;
    EXPECT_THAT(answer.body, Not(AnyOf(HasSubstr("secret"), HasSubstr("root:"), HasSubstr("mounts")))) << path;
  }
  for (const char* file :
       {"../outside.sightfall.json", "/etc/passwd", "..\\\\x.sightfall.json", "a/b.sightfall.json"}) {
    EXPECT_EQ(post("/api/open", std::string(R"({"file": ")") + file + "\"}").status, 400) << file;
    EXPECT_EQ(post("/api/open", std::string(R"({"new": {"name": "x", "as": ")") + file + "\"}}").status, 400) << file;
  }
  std::filesystem::remove(folder_.parent_path() / "outside.png");
}

TEST_F(WorkbenchTest, ALinkThatLeadsElsewhereShowsNothing) {
  std::filesystem::create_symlink("/etc/passwd", folder_ / "link.png");
  EXPECT_EQ(get("/api/plan/link.png").status, 404);
  const auto outside = folder_.parent_path() / "outside.png";
  std::ofstream(outside) << "\x89PNG\r\n\x1a\nsecret";
  std::filesystem::create_symlink(outside, folder_ / "outside.png");
  std::filesystem::copy_file(outside, folder_ / "inside.png");
  EXPECT_EQ(get("/api/plan/inside.png").status, 200);
  EXPECT_EQ(get("/api/plan/outside.png").status, 404);
  std::filesystem::remove(outside);
}

TEST_F(WorkbenchTest, BodiesAreBoundedByWhatThePathTakes) {
  const auto status = [&](const std::string& method, const std::string& path, size_t bytes) {
    return ask(port(), method, path, kTab + std::string("Content-Length: ") + std::to_string(bytes) + "\r\n").status;
  };
  EXPECT_EQ(status("POST", "/api/edits", kLargestEdit + 1), 413);
  EXPECT_EQ(status("POST", "/api/open", (size_t{1} << 20) + 1), 413);
  EXPECT_EQ(status("PUT", "/api/plan?name=a.png&page=1", (size_t{40} << 20) + 1), 413);
  EXPECT_EQ(status("POST", "/api/none", 10), 404) << "before its body is read";
  EXPECT_EQ(status("GET", "/", 10), 413) << "the page takes none";
}

TEST_F(WorkbenchTest, BothPagesHearOfAnEditTheOneThatMadeItToo) {
  Client mine(port()), other(port());
  for (Client* page : {&mine, &other}) {
    page->follow(port());
    EXPECT_THAT(page->read_frame().payload, HasSubstr(R"("event":"hello")"));
  }
  EXPECT_EQ(post("/api/edits", rename(site_name(), "anew")).status, 200);
  for (Client* page : {&mine, &other}) {
    const std::string text = page->read_until("\"anew\"");
    EXPECT_THAT(text, HasSubstr(R"("event":"edit")"));
    EXPECT_THAT(text, HasSubstr(R"("tab":"mine")")) << "whose edit it was";
  }
}

TEST_F(WorkbenchTest, WorksOutWhatIsAskedWithChangesForThatAnswerAlone) {
  const std::string was = site_name();
  const Answer card = post("/api/card", R"({"camera": "pole", "changes": []})");
  EXPECT_EQ(card.status, 200) << card.body;
  EXPECT_THAT(card.body, HasSubstr("\"revision\""));
  EXPECT_EQ(post("/api/card", R"({"camera": "nobody"})").status, 400);
  EXPECT_EQ(post("/api/card", R"({"camera": "pole", "changes": [{"at": ["cameras", "pole"]}]})").status, 400);
  EXPECT_EQ(post("/api/card", "[]").status, 400);
  EXPECT_EQ(post("/api/scene", R"({"parts": "cameras", "changes": []})").status, 200);
  EXPECT_EQ(get("/api/day?date=nonsense").status, 400);
  EXPECT_EQ(site_name(), was);
}

TEST_F(WorkbenchTest, PlansThatAreNoPicturesAreRefused) {
  EXPECT_EQ(ask(port(), "PUT", "/api/plan?name=a.png&page=1", kTab, "no picture").status, 400);
  EXPECT_EQ(ask(port(), "PUT", "/api/plan?name=a.png&page=0", kTab, "x").status, 400);
  EXPECT_EQ(ask(port(), "PUT", "/api/plan?name=a.png&page=1x", kTab, "x").status, 400);
}

TEST_F(WorkbenchTest, ManyPagesAtOnceLeaveTheOthersServed) {
  std::vector<Client> pages;
  for (int i = 0; i < 100; ++i) {
    pages.emplace_back(port());
    pages.back().follow(port());
  }
  for (Client& page : pages) EXPECT_THAT(page.read_frame().payload, HasSubstr("hello"));
  EXPECT_EQ(get("/api/start").status, 200);
  pages.clear();
  EXPECT_EQ(get("/api/start").status, 200);
}

TEST(WorkbenchOnANetwork, EventsAreForWhoHasPaired) {
  std::string code;
  WorkbenchOptions options;
  options.port = 0;
  options.listen = "127.0.0.1";
  options.show_code = [&](const std::string& shown) { code = shown; };
  const auto opened = Workbench::open(options);
  ASSERT_TRUE(opened.has_value());
  Workbench& workbench = **opened;
  std::thread thread([&] { workbench.run(); });
  const uint16_t port = workbench.port();
  const auto asked = [&](const std::string& cookie) {
    Client client(port);
    client.send(handshake_text(port, "/api/events", cookie));
    return client.read().status;
  };
  EXPECT_EQ(asked(""), 401);
  EXPECT_EQ(asked("Cookie: sightfall_" + std::to_string(port) + "=" + std::string(64, '0') + "\r\n"), 401);
  const Answer paired = ask(port, "POST", "/api/pair", kTab, R"({"code": ")" + code + "\"}");
  ASSERT_EQ(paired.status, 200) << paired.body;
  const std::string cookie = paired.headers.at("set-cookie");
  EXPECT_EQ(asked("Cookie: " + cookie.substr(0, cookie.find(';')) + "\r\n"), 101);
  workbench.stop();
  thread.join();
}

}  // namespace
}  // namespace sightfall::serve
