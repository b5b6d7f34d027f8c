// SPDX-License-Identifier: GPL-3.0-or-later
// Streams of events over WebSockets: as RFC 6455 has them, and against readers that mean harm.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <thread>

#include "serve/http.h"
#include "serve/test_client.h"

namespace sightfall::serve {
namespace {

using namespace std::chrono_literals;
using serve::testing::Answer;
using serve::testing::answered_soon;
using serve::testing::Client;
using serve::testing::Frame;
using serve::testing::frame_text;
using serve::testing::handshake_text;
using serve::testing::kClose;
using serve::testing::kPing;
using serve::testing::kPong;
using serve::testing::kText;
using serve::testing::request_text;
using serve::testing::Running;
using serve::testing::service_of;
using ::testing::HasSubstr;

std::shared_ptr<const std::string> kept(std::string text) {
  return std::make_shared<const std::string>(std::move(text));
}

bool comes_true(const std::atomic<bool>& flag) {
  for (int i = 0; i < 1000 && !flag; ++i) std::this_thread::sleep_for(10ms);
  return flag;
}

TEST(Stream, BecomesAWebSocketAsTheStandardHasIt) {
  const Running server(service_of([](const Request&, const Caller& caller) { caller.stream([] {}); }));
  Client client(server.port());
  const Answer answer = client.follow(server.port());
  EXPECT_EQ(answer.status, 101);
  EXPECT_EQ(answer.headers.at("sec-websocket-accept"), "s3pPLMBiTxaQ9kYGzzhZRbK+xOo=") << "RFC 6455, section 1.3";
  EXPECT_EQ(answer.headers.at("x-every"), "answer");
  client.send(frame_text(0x80 | kPing, "there?"));
  const Frame frame = client.read_frame();
  EXPECT_EQ(frame.opcode, kPong) << "RFC 6455, section 5.5.3";
  EXPECT_EQ(frame.payload, "there?");
  client.send(frame_text(0x80 | kClose, "\x03\xE8"));
  EXPECT_EQ(client.read_frame().close_code(), 1000) << "RFC 6455, section 5.5.1: answered alike";
  EXPECT_TRUE(client.ends_within(5s));
}

TEST(Stream, SendsEventsInTheirOrderAndTellsWhenTheReaderLeaves) {
  std::atomic<bool> closed{false};
  std::promise<Stream> made;
  const Running server(
      service_of([&](const Request&, const Caller& caller) { made.set_value(caller.stream([&] { closed = true; })); }));
  {
    Client client(server.port());
    client.follow(server.port());
    const Stream stream = made.get_future().get();
    for (int i = 0; i < 100; ++i) stream.send("count", kept(std::to_string(i)));
    stream.send("last", kept(R"({"all":[]})"));
    for (int i = 0; i < 100; ++i)
      EXPECT_EQ(client.read_frame().payload, R"({"event":"count","data":)" + std::to_string(i) + "}");
    const Frame last = client.read_frame();
    EXPECT_EQ(last.opcode, kText);
    EXPECT_EQ(last.payload, R"({"event":"last","data":{"all":[]}})");
  }
  EXPECT_TRUE(comes_true(closed));
}

TEST(Stream, ALargeEventIsOneMessage) {
  std::promise<Stream> made;
  Limits limits;
  limits.stream_bytes = 1000;
  const Running server(service_of([&](const Request&, const Caller& caller) { made.set_value(caller.stream([] {})); }),
                       limits);
  Client client(server.port());
  client.follow(server.port());
  const std::string text = '"' + std::string(100'000, 'x') + '"';
  made.get_future().get().send("large", kept(text));
  EXPECT_EQ(client.read_frame().payload, R"({"event":"large","data":)" + text + "}")
      << "though more than may wait: it is what stands before it that counts";
}

TEST(Stream, WhoAsksForAStreamWithoutAWebSocketIsToldWhy) {
  const Running server(service_of([](const Request&, const Caller& caller) { caller.stream([] {}); }));
  const auto why = [&](const std::string& text) {
    Client client(server.port());
    client.send(text);
    const Answer answer = client.read();
    EXPECT_EQ(answer.status, 400) << text;
    return answer.body;
  };
  const uint16_t port = server.port();
  EXPECT_EQ(why(request_text(port, "GET", "/")), "needed is a WebSocket");
  EXPECT_EQ(why(request_text(port, "GET", "/", "Upgrade: websocket\r\n")), "needed is a WebSocket");
  EXPECT_THAT(why(handshake_text(port, "/", "Sec-WebSocket-Version: 8\r\n")), HasSubstr("allowed: 13"));
  for (const char* key :
       {"", "short", "dGhlIHNhbXBsZSBub25jZQ=", "dGhlIHNhbXBsZSBub25jZQ===", "dGhlIHNhbXBsZ!Bub25jZQ=="})
    EXPECT_THAT(why(handshake_text(port, "/", std::string("Sec-WebSocket-Key: ") + key + "\r\n")),
                HasSubstr("no handshake"))
        << key;
  EXPECT_THAT(why(handshake_text(port, "/") + frame_text(0x80 | kText, "early")), HasSubstr("more than a handshake"));
}

TEST(Stream, AQuietReaderStaysAsLongAsItAnswersPings) {
  std::atomic<bool> closed{false};
  Limits limits;
  limits.ping = 500ms;
  const Running server(service_of([&](const Request&, const Caller& caller) { caller.stream([&] { closed = true; }); }),
                       limits);
  Client client(server.port());
  client.follow(server.port());
  for (int i = 0; i < 3; ++i) {
    const Frame frame = client.read_frame();
    ASSERT_EQ(frame.opcode, kPing) << i;
    client.send(frame_text(0x80 | kPong, frame.payload));
  }
  EXPECT_FALSE(closed);
  EXPECT_EQ(client.read_frame().opcode, kPing);
  EXPECT_TRUE(client.ends_within(5s)) << "unanswered";
  EXPECT_TRUE(comes_true(closed));
}

TEST(StreamAttack, ASlowReaderOfEventsIsDroppedAndKeepsNobodyWaiting) {
  std::atomic<int> closed{0};
  std::promise<Stream> slow_made, quick_made;
  Limits limits;
  limits.stream_bytes = 200'000;
  const Running server(service_of([&](const Request& request, const Caller& caller) {
                         if (request.target.path() == "/") return caller.answer({});
                         const Stream stream = caller.stream([&] { ++closed; });
                         (request.target.path() == "/slow" ? slow_made : quick_made).set_value(stream);
                       }),
                       limits);
  Client slow(server.port()), quick(server.port());
  slow.set_window(4096);
  slow.follow(server.port(), "/slow");
  quick.follow(server.port(), "/quick");
  const Stream to_slow = slow_made.get_future().get(), to_quick = quick_made.get_future().get();
  const auto event = std::make_shared<const std::string>('"' + std::string(10'000, 'x') + '"');
  for (int i = 0; i < 2000 && closed == 0; ++i) {
    to_slow.send("event", event);
    to_quick.send("number", std::make_shared<const std::string>(std::to_string(i)));
    EXPECT_EQ(quick.read_frame(2s).payload, R"({"event":"number","data":)" + std::to_string(i) + "}");
  }
  EXPECT_EQ(closed, 1);
  EXPECT_TRUE(answered_soon(server.port()));
}

struct Said {
  std::string bytes;
  std::vector<int> codes;  ///< any of which may be the reason that is given; 0: none
};

/// What a reader of events may send is nothing but answers to pings. Codes by RFC 6455, section 7.4.1.
class SaidToAStream : public ::testing::TestWithParam<Said> {};

TEST_P(SaidToAStream, EndsIt) {
  std::atomic<bool> closed{false};
  const Running server(service_of([&](const Request& request, const Caller& caller) {
    if (request.target.path() == "/") return caller.answer({});
    caller.stream([&] { closed = true; });
  }));
  Client client(server.port());
  EXPECT_EQ(client.follow(server.port()).status, 101);
  client.send(GetParam().bytes);
  EXPECT_THAT(GetParam().codes, ::testing::Contains(client.read_frame().close_code()));
  client.send(frame_text(0x80 | kClose, "\x03\xE8"));
  EXPECT_TRUE(client.ends_within(10s));
  EXPECT_TRUE(answered_soon(server.port()));
  EXPECT_TRUE(comes_true(closed));
}

constexpr int kProtocol = 1002, kPolicy = 1008, kTooBig = 1009;

INSTANTIATE_TEST_SUITE_P(
    StreamAttack, SaidToAStream,
    ::testing::Values(Said{frame_text(0x81, "{}"), {kPolicy}},                      // a message
                      Said{frame_text(0x82, "bytes"), {kPolicy}},                   // a message of bytes
                      Said{frame_text(0x81, ""), {kPolicy}},                        // an empty one
                      Said{frame_text(0x01, "part"), {kPolicy}},                    // one in pieces
                      Said{frame_text(0x81, std::string(60'000, 'x')), {kTooBig}},  // a large one
                      Said{std::string("\x81\xFF\x7F\xFF\xFF\xFF\xFF\xFF\xFF\xFF"
                                       "mask",
                                       14),
                           {kTooBig}},  // 2^63 bytes
                      Said{std::string("\x81\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF"
                                       "mask",
                                       14),
                           {kProtocol, kTooBig}},
                      Said{std::string("\x81\x02{}", 4), {kProtocol}},                   // not masked
                      Said{frame_text(0xC1, "{}"), {kProtocol}},                         // a bit that means nothing
                      Said{frame_text(0x83, "{}"), {kProtocol}},                         // an opcode that there is not
                      Said{frame_text(0x80, "on"), {kProtocol}},                         // goes on with nothing
                      Said{frame_text(0x09, "half"), {kProtocol}},                       // half a ping
                      Said{frame_text(0x89, std::string(126, 'x')), {kProtocol}},        // a ping too long
                      Said{frame_text(0x88, "\x03"), {kProtocol}},                       // half a reason
                      Said{frame_text(0x88, std::string("\x03\xED", 2)), {kProtocol}},   // 1005, which is never sent
                      Said{"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n", {kProtocol}}));  // another request

TEST(StreamAttack, WhoSendsPingsWithoutEndAndReadsNoAnswerIsDropped) {
  std::atomic<bool> closed{false};
  Limits limits;
  limits.ping = 200ms;
  const Running server(service_of([&](const Request& request, const Caller& caller) {
                         if (request.target.path() == "/") return caller.answer({});
                         caller.stream([&] { closed = true; });
                       }),
                       limits);
  Client client(server.port());
  client.set_window(4096);
  client.follow(server.port());
  std::string pings;
  for (int i = 0; i < 1000; ++i) pings += frame_text(0x89, std::string(125, 'x'));
  std::thread flood([&] {
    while (!closed && client.send(pings)) {
    }
  });
  for (int i = 0; i < 10; ++i) EXPECT_TRUE(answered_soon(server.port()));
  flood.join();
  EXPECT_TRUE(comes_true(closed));
}

}  // namespace
}  // namespace sightfall::serve
