// SPDX-License-Identifier: GPL-3.0-or-later
// What is said on one connection: requests after one another, each answered before the next is read, or a stream of
// events at the end.
//   Promise  every wait has its end (Limits); who is refused comes to read why; nothing is read while an answer is made
//   Threads  the serving one
//   Checked  http_test.cpp, http_attack_test.cpp; tests/fuzz/http_fuzz.cpp
#pragma once
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "serve/exchange.h"
#include "serve/http.h"
#include "serve/http_text.h"
#include "serve/line.h"

namespace sightfall::serve {

class Session;

/// What the sessions share.
struct Room {
  const Service service;
  const Limits limits;
  const std::shared_ptr<Link> link;  ///< leads to the serving thread
  std::unordered_set<std::shared_ptr<Session>> sessions = {};
  size_t bodies = 0;  ///< bytes promised to requests that are not answered yet
};

class Session : public Connection, public std::enable_shared_from_this<Session> {
 public:
  using Moment = std::chrono::steady_clock::time_point;

  Session(Room& room, std::shared_ptr<Line> line);

  const std::string& peer() const { return line_->peer(); }
  /// Since when it has been silent, or slow with a head; nothing while it is served.
  std::optional<Moment> waiting_since() const { return waiting_ ? std::optional(since_) : std::nullopt; }

  void await_request();

  void answer(std::uint64_t number, std::optional<Response> response) override;
  void stream(std::uint64_t number, const std::shared_ptr<Channel>& channel) override;
  void flush() override;
  void close() override;

 private:
  enum class Does { kRead, kServe, kStream, kEnd };
  enum class After { kNext, kEnd };

  void close_after(std::chrono::milliseconds time);
  void refuse_after(std::chrono::milliseconds time, int status, const char* text);
  void wait();
  void read();
  void came(std::string_view bytes);
  void advance();
  void take_head();
  void take_body(size_t largest);
  void handle();
  void forget();
  void refuse(int status, const std::string& text);
  void send(Response response, After after);
  void write(std::string head, std::string body, void (Session::*then)());
  void end();
  void write_events();

  Room& room_;
  const std::shared_ptr<Line> line_;
  RequestReader reader_;
  std::optional<tl::expected<std::string, Refusal>> socket_key_;  ///< of the request, or why it wants no WebSocket
  std::uint64_t number_ = 0;                                      ///< of the request
  std::shared_ptr<std::atomic<bool>> gone_;                       ///< while an answer is waited for
  std::shared_ptr<Channel> channel_;
  size_t unread_bytes_ = 0, promised_ = 0;
  Moment since_;
  Does does_ = Does::kRead;
  bool waiting_ = false;     ///< for a request
  bool begun_ = false;       ///< something of the request has come
  bool head_alone_ = false;  ///< is what the answer to the request has
  bool reading_ = false, writing_ = false, closed_ = false;
};

}  // namespace sightfall::serve
