// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/http.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <condition_variable>
#include <future>
#include <mutex>
#include <optional>
#include <thread>

#include "serve/test_client.h"

namespace sightfall::serve {
namespace {

using namespace std::chrono_literals;
using serve::testing::ask;
using serve::testing::Client;
using serve::testing::request_text;
using serve::testing::Running;
using serve::testing::service_of;
using ::testing::HasSubstr;

void echo(const Request& request, const Caller& caller) {
  caller.answer({200, {{"X-Path", request.target.path()}}, request.method + " " + request.body});
}

std::shared_ptr<const std::string> kept(std::string text) {
  return std::make_shared<const std::string>(std::move(text));
}

/// What handlers leave for the test to answer.
class Held {
 public:
  void put(const Caller& caller) {
    const std::lock_guard lock(mutex_);
    callers_.push_back(caller);
    came_.notify_all();
  }
  Caller take() {
    std::unique_lock lock(mutex_);
    came_.wait(lock, [this] { return !callers_.empty(); });
    Caller caller = callers_.back();
    callers_.pop_back();
    return caller;
  }

 private:
  std::mutex mutex_;
  std::condition_variable came_;
  std::vector<Caller> callers_;
};

TEST(Http, AnswersWithWhatTheHandlerSaysAndWhatAllAnswersHave) {
  const Running server(service_of(echo));
  const auto answer = ask(server.port(), "POST", "/a%20b/c?x=1", {}, "text");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.body, "POST text");
  EXPECT_EQ(answer.headers.at("x-path"), "/a b/c");
  EXPECT_EQ(answer.headers.at("x-every"), "answer");
}

TEST(Http, AnswersManyRequestsOnOneConnectionAlsoWhenTheyComeAtOnce) {
  const Running server(service_of(echo));
  Client client(server.port());
  std::string all;
  for (int i = 0; i < 50; ++i) all += request_text(server.port(), "POST", "/", {}, std::to_string(i));
  ASSERT_TRUE(client.send(all));
  for (int i = 0; i < 50; ++i) EXPECT_EQ(client.read().body, "POST " + std::to_string(i));
}

TEST(Http, ListensAtBothKindsOfLoopback) {
  const Running server(service_of(echo));
  Client client(server.port(), true);
  if (!client.connected()) GTEST_SKIP() << "no IPv6 here";
  client.send(request_text(server.port(), "GET", "/"));
  EXPECT_EQ(client.read().status, 200);
}

TEST(Http, AnswersHeadWithoutItsBody) {
  const Running server(service_of(echo));
  Client client(server.port());
  client.send(request_text(server.port(), "HEAD", "/") + request_text(server.port(), "GET", "/"));
  EXPECT_EQ(client.read(true).headers.at("content-length"), "5");
  EXPECT_EQ(client.read().body, "GET ");
}

TEST(Http, ReadsABodyInPieces) {
  const Running server(service_of(echo));
  Client client(server.port());
  client.send(request_text(server.port(), "POST", "/", "Transfer-Encoding: chunked\r\n") +
              "3\r\nabc\r\n2\r\nde\r\n0\r\n\r\n");
  EXPECT_EQ(client.read().body, "POST abcde");
}

TEST(Http, SaysThatABodyMayComeWhenItIsAsked) {
  const Running server(service_of(echo));
  Client client(server.port());
  client.send(request_text(server.port(), "POST", "/", "Expect: 100-continue\r\nContent-Length: 2\r\n"));
  EXPECT_EQ(client.read().status, 100);
  client.send("ab");
  EXPECT_EQ(client.read().body, "POST ab");
}

TEST(Http, TakesAnAnswerFromAnotherThreadLater) {
  Held held;
  const Running server(service_of([&](const Request&, const Caller& caller) { held.put(caller); }));
  Client client(server.port());
  client.send(request_text(server.port(), "GET", "/"));
  std::thread([caller = held.take()] { caller.answer({200, {}, "late"}); }).join();
  EXPECT_EQ(client.read().body, "late");
}

TEST(Http, OnlyTheFirstAnswerCounts) {
  const Running server(service_of([](const Request&, const Caller& caller) {
    caller.answer({200, {}, "first"});
    caller.answer({500, {}, "second"});
  }));
  Client client(server.port());
  client.send(request_text(server.port(), "GET", "/") + request_text(server.port(), "GET", "/"));
  EXPECT_EQ(client.read().body, "first");
  EXPECT_EQ(client.read().body, "first");
}

TEST(Http, AForgottenAnswerIsOurFault) {
  const Running server(service_of([](const Request&, const Caller&) {}));
  EXPECT_EQ(ask(server.port(), "GET", "/").status, 500);
}

TEST(Http, AnAnswerThatTakesTooLongIsGivenUpAndItsMakerLearnsOfIt) {
  Held held;
  Limits limits;
  limits.answer = 200ms;
  const Running server(service_of([&](const Request&, const Caller& caller) { held.put(caller); }), limits);
  EXPECT_EQ(ask(server.port(), "GET", "/").status, 503);
  EXPECT_TRUE(*held.take().gone());
}

TEST(Http, WhoHangsUpIsNoLongerWorkedFor) {
  Held held;
  const Running server(service_of([&](const Request&, const Caller& caller) { held.put(caller); }));
  std::optional<Caller> caller;  // kept, for a caller that is dropped gives an answer
  {
    Client client(server.port());
    client.send(request_text(server.port(), "GET", "/"));
    caller = held.take();
    EXPECT_FALSE(*caller->gone());
  }
  for (int i = 0; i < 200 && !*caller->gone(); ++i) std::this_thread::sleep_for(10ms);
  EXPECT_TRUE(*caller->gone());
}

TEST(Http, StoppingClosesWhatIsOpenAndLateAnswersGoNowhere) {
  Held held;
  bool closed = false;
  std::optional<Client> waiting, following, idle;
  std::optional<Caller> late;
  std::optional<Stream> stream;
  {
    const Running server(service_of([&](const Request& request, const Caller& caller) {
      if (request.target.path() == "/events") stream = caller.stream([&] { closed = true; });
      held.put(caller);
    }));
    for (auto* client : {&waiting, &following, &idle}) client->emplace(server.port());
    waiting->send(request_text(server.port(), "GET", "/"));
    late = held.take();
    EXPECT_EQ(following->follow(server.port(), "/events").status, 101);
    held.take();
  }
  for (auto* client : {&waiting, &following, &idle}) EXPECT_TRUE((*client)->ends_within(5s));
  EXPECT_TRUE(closed);
  EXPECT_TRUE(*late->gone());
  late->answer({200, {}, "nobody reads it"});
  stream->send("late", kept("{}"));
}

TEST(Http, SaysWhyItCannotListen) {
  const Running first(service_of(echo));
  const auto second = Server::open({"127.0.0.1"}, first.port(), service_of(echo));
  ASSERT_FALSE(second.has_value());
  EXPECT_THAT(second.error().text, HasSubstr("in use"));
  const auto nowhere = Server::open({"here"}, 0, service_of(echo));
  ASSERT_FALSE(nowhere.has_value());
  EXPECT_THAT(nowhere.error().text, HasSubstr("allowed: an address"));
}

}  // namespace
}  // namespace sightfall::serve
