// SPDX-License-Identifier: GPL-3.0-or-later
// What is done to a server that means it harm. Each attack is held beside an ordinary request, which must be answered.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <mutex>
#include <thread>

#include "serve/http.h"
#include "serve/test_client.h"

namespace sightfall::serve {
namespace {

using namespace std::chrono_literals;
using serve::testing::answered_soon;
using serve::testing::ask;
using serve::testing::Client;
using serve::testing::request_text;
using serve::testing::Running;
using serve::testing::service_of;
using ::testing::AnyOf;

using Clock = std::chrono::steady_clock;

void echo(const Request& request, const Caller& caller) { caller.answer({200, {}, request.body}); }

class Malformed : public ::testing::TestWithParam<std::string> {};

TEST_P(Malformed, IsRefusedAndEndsTheConnection) {
  const Running server(service_of(echo));
  Client client(server.port());
  client.send(GetParam());
  EXPECT_THAT(client.read().status, AnyOf(0, 400, 431));
  EXPECT_TRUE(client.ends_within(10s));
  EXPECT_TRUE(answered_soon(server.port()));
}

INSTANTIATE_TEST_SUITE_P(
    HttpAttack, Malformed,
    ::testing::Values("\r\n\r\n\r\n\r\nX", "GET\r\n\r\n", "GET / HTTP/9.9\r\nHost: a\r\n\r\n",
                      "GET / HTTP/1.0\r\nHost: a\r\n\r\n", "GET / HTTP/1.1\r\n\r\n",
                      "GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
                      "GET / HTTP/1.1\r\nHost: a\r\n folded\r\nHost: b\r\n\r\n", "GET / HTTP/1.1\r\nHost a\r\n\r\n",
                      "GET / HTTP/1.1\r\nHo st: a\r\n\r\n", "GET /../x HTTP/1.1\r\nHost: a\r\n\r\n",
                      "GET http://a/ HTTP/1.1\r\nHost: a\r\n\r\n", "GET /\x01 HTTP/1.1\r\nHost: a\r\n\r\n",
                      std::string("GET /") + '\0' + " HTTP/1.1\r\nHost: a\r\n\r\n",
                      "POST / HTTP/1.1\r\nHost: "
                      "a\r\nContent-Length: -1\r\n\r\n",
                      "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 1x\r\n\r\n",
                      "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 99999999999999999999\r\n\r\n",
                      "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\nab",
                      "POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\nContent-Length: 1\r\n\r\n0\r\n\r\n",
                      "POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n",
                      "\x16\x03\x01\x02\x01\x01", std::string(100'000, 'A'),
                      "GET / HTTP/1.1\r\nHost: a\r\nX: " + std::string(20'000, 'x') + "\r\n\r\n",
                      "GET /" + std::string(20'000, 'x') + " HTTP/1.1\r\nHost: a\r\n\r\n"));

TEST(HttpAttack, ASlowHeadIsGivenUpThoughItKeepsComing) {
  Limits limits;
  limits.header = 400ms;
  const Running server(service_of(echo), limits);
  Client client(server.port());
  const std::string text = request_text(server.port(), "GET", "/");
  const auto began = Clock::now();
  for (const char c : text.substr(0, text.size() - 1)) {
    if (Clock::now() - began > 600ms) break;
    client.send(std::string(1, c));
    std::this_thread::sleep_for(20ms);
  }
  EXPECT_EQ(client.read().status, 408);
  EXPECT_LT(Clock::now() - began, 5s);
}

TEST(HttpAttack, ASlowBodyIsGivenUp) {
  Limits limits;
  limits.body = 300ms;
  const Running server(service_of(echo), limits);
  Client client(server.port());
  client.send(request_text(server.port(), "POST", "/", "Content-Length: 100\r\n") + "some");
  EXPECT_EQ(client.read().status, 408);
}

TEST(HttpAttack, ASilentConnectionIsClosed) {
  Limits limits;
  limits.silent = 200ms;
  const Running server(service_of(echo), limits);
  Client never(server.port()), after_one(server.port());
  after_one.send(request_text(server.port(), "GET", "/"));
  EXPECT_EQ(after_one.read().status, 200);
  EXPECT_TRUE(never.ends_within(5s));
  EXPECT_TRUE(after_one.ends_within(5s));
}

TEST(HttpAttack, AHugeUploadIsRefusedByItsHeadAlone) {
  std::atomic<int> handled{0};
  const Running server(service_of([&](const Request&, const Caller& caller) {
    ++handled;
    caller.answer({});
  }));
  Client client(server.port());
  client.send(request_text(server.port(), "POST", "/", "Content-Length: 1000000000000\r\n"));
  EXPECT_EQ(client.read().status, 413) << "nothing of its body was sent";
  EXPECT_EQ(handled, 0);
}

TEST(HttpAttack, WhoKeepsSendingAfterARefusalStillReadsWhy) {
  const Running server(service_of(echo));
  Client client(server.port());
  client.send(request_text(server.port(), "POST", "/", "Content-Length: 20000000\r\n"));
  client.send(std::string(20'000'000, 'x'));
  EXPECT_EQ(client.read().status, 413);
}

TEST(HttpAttack, ABodyInPiecesIsStoppedAtItsLimit) {
  const Running server(service_of(echo));
  Client client(server.port());
  client.send(request_text(server.port(), "POST", "/", "Transfer-Encoding: chunked\r\n"));
  const std::string piece = "1f4\r\n" + std::string(500, 'x') + "\r\n";
  client.send(piece + piece + piece);
  EXPECT_EQ(client.read().status, 413);
}

TEST(HttpAttack, TooManyLargeBodiesAtOnceAreRefused) {
  Limits limits;
  limits.bodies = 2000;
  const Running server(service_of(echo), limits);
  std::vector<Client> clients;
  for (int i = 0; i < 2; ++i) {
    clients.emplace_back(server.port());
    clients.back().send(request_text(server.port(), "POST", "/", "Content-Length: 900\r\n"));
  }
  std::this_thread::sleep_for(200ms);
  EXPECT_EQ(ask(server.port(), "POST", "/", {}, std::string(900, 'x')).status, 503);
  for (Client& client : clients) client.send(std::string(900, 'x'));
  for (Client& client : clients) EXPECT_EQ(client.read().status, 200);
  EXPECT_EQ(ask(server.port(), "POST", "/", {}, std::string(900, 'x')).status, 200) << "there is room again";
}

TEST(HttpAttack, AThousandSilentSocketsLeaveRoomForWhoAsks) {
  const Running server(service_of(echo));
  std::vector<Client> sockets;
  for (int i = 0; i < 1000; ++i) {
    sockets.emplace_back(server.port());
    if (i % 2 == 0) sockets.back().send("GET / HT");
  }
  EXPECT_TRUE(answered_soon(server.port()));
  const auto closed = std::count_if(sockets.begin(), sockets.end(), [](Client& one) { return one.ends_within(5ms); });
  EXPECT_GE(closed, 1000 - static_cast<int>(Limits{}.connections_of_one_address) - 1);
  EXPECT_TRUE(answered_soon(server.port()));
}

TEST(HttpAttack, AThousandRequestsAtOnceAreAnsweredOrTurnedAway) {
  const Running server(service_of(echo));
  std::vector<Client> sockets;
  for (int i = 0; i < 1000; ++i) {
    sockets.emplace_back(server.port());
    sockets.back().send(request_text(server.port(), "GET", "/"));
  }
  int answered = 0;
  for (Client& socket : sockets) answered += socket.read().status == 200 ? 1 : 0;
  EXPECT_GE(answered, static_cast<int>(Limits{}.connections_of_one_address));
  EXPECT_TRUE(answered_soon(server.port()));
}

TEST(HttpAttack, WhenAllAreServedAFurtherOneIsTurnedAwayAndNobodyElseHarmed) {
  Limits limits;
  limits.connections = 3;
  std::mutex mutex;
  std::vector<Caller> held;
  const Running server(service_of([&](const Request&, const Caller& caller) {
                         const std::lock_guard lock(mutex);
                         held.push_back(caller);
                       }),
                       limits);
  std::vector<Client> clients;
  for (int i = 0; i < 3; ++i) {
    clients.emplace_back(server.port());
    clients.back().send(request_text(server.port(), "GET", "/"));
  }
  for (size_t waiting = 0; waiting < 3; std::this_thread::sleep_for(5ms)) {
    const std::lock_guard lock(mutex);
    waiting = held.size();
  }
  EXPECT_EQ(ask(server.port(), "GET", "/").status, 0);
  for (const Caller& caller : held) caller.answer({200, {}, "served"});
  for (Client& client : clients) EXPECT_EQ(client.read().body, "served");
  held.clear();
}

TEST(HttpAttack, WhoDoesNotReadItsAnswerIsDropped) {
  std::atomic<int> answered{0};
  Limits limits;
  limits.write = 500ms;
  limits.connections = 2;
  const Running server(service_of([&](const Request& request, const Caller& caller) {
                         caller.answer({200, {}, std::string(request.target.path() == "/big" ? 50'000'000 : 1, 'x')});
                         ++answered;
                       }),
                       limits);
  std::vector<Client> clients;
  for (int i = 0; i < 2; ++i) {
    clients.emplace_back(server.port());
    clients.back().set_window(4096);
    clients.back().send(request_text(server.port(), "GET", "/big"));
  }
  while (answered < 2) std::this_thread::sleep_for(1ms);
  EXPECT_EQ(ask(server.port(), "GET", "/").status, 0) << "both places are taken";
  std::this_thread::sleep_for(1s);
  EXPECT_TRUE(answered_soon(server.port()));
}

}  // namespace
}  // namespace sightfall::serve
