// SPDX-License-Identifier: GPL-3.0-or-later
// HTTP/1.1 for one small server: requests in, answers and streams of events out, and nothing about what is asked.
//   Parts    sockets.h the system's connections, session.h what is said on one, http_text.h how it is written
//   Threads  run() serves every connection on the thread that calls it. The service's functions are called there and
//            must return at once; an answer or an event may be given from any thread, later
//   Promise  every request gets one answer (500 when it was forgotten, 503 when it was not there in time) or its
//            connection is closed; who is slow or silent is dropped and keeps nobody waiting
//   Limits   Limits; more connections than that close the one that was silent longest, or are refused
//   Checked  http_test.cpp, http_attack_test.cpp; tests/fuzz/http_fuzz.cpp
#pragma once
#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "serve/target.h"

namespace sightfall::serve {

struct Header {
  std::string name, value;
};

struct Request {
  std::string method;
  Target target;
  std::vector<Header> headers;
  std::string body;
  std::string local_address;  ///< at which it came in, such as 127.0.0.1 or ::1

  /// Null when there is none of that name. Names are the same in capitals.
  const std::string* header(std::string_view name) const;
};

struct Response {
  int status = 200;
  std::vector<Header> headers;
  std::string body;
};

/// Why a request is not answered as it would like.
struct Refusal {
  int status = 403;
  std::string text;
};

class Exchange;
class Channel;

/// A stream of events to one reader: each is a message `{"event": NAME, "data": DATA}` of a WebSocket.
class Stream {
 public:
  explicit Stream(std::shared_ptr<Channel> channel) : channel_{std::move(channel)} {}
  /// Keeps the event to be sent; dropped when nobody reads any longer. A reader for whom more than Limits::stream_bytes
  /// wait already loses its connection. `data` is JSON.
  void send(std::string_view event, const std::shared_ptr<const std::string>& data) const;

 private:
  std::shared_ptr<Channel> channel_;
};

/// Who waits for the answer to a request.
class Caller {
 public:
  explicit Caller(std::shared_ptr<Exchange> exchange) : exchange_{std::move(exchange)} {}
  /// All but the first answer are dropped.
  void answer(Response response) const;
  /// Answers with a stream, or with why there is none where no WebSocket was asked for; `closed` is called from run()
  /// once nobody reads it any longer.
  Stream stream(std::function<void()> closed) const;
  /// Becomes true when nobody waits for the answer any longer.
  std::shared_ptr<const std::atomic<bool>> gone() const;

 private:
  std::shared_ptr<Exchange> exchange_;
};

/// What becomes of a request whose head is known: refused before its body is read, or taken with a body so large.
struct Admission {
  std::optional<Response> refusal;
  size_t largest_body = 0;
};

struct Service {
  std::function<Admission(const Request& head)> admit;
  std::function<void(Request request, Caller caller)> handle;
  /// The answer that says what is wrong with a request that never came to the two above.
  std::function<Response(int status, const std::string& text)> fault;
  /// What every answer has beside its own.
  std::vector<Header> headers;
};

struct Limits {
  size_t connections = 512;
  size_t connections_of_one_address = 256;
  size_t header_bytes = size_t{16} << 10;
  size_t bodies = size_t{128} << 20;  ///< bytes of all requests that are not answered yet
  size_t stream_bytes = size_t{4} << 20;
  std::chrono::milliseconds silent{60'000};   ///< between two requests
  std::chrono::milliseconds header{10'000};   ///< from a request's first byte to the end of its head
  std::chrono::milliseconds body{60'000};     ///< from there to the end of its body
  std::chrono::milliseconds answer{120'000};  ///< from there to the answer
  std::chrono::milliseconds write{60'000};    ///< for the reader to take it
  std::chrono::milliseconds ping{15'000};     ///< of silence, then the reader of a stream is asked whether it is there
};

class Server {
 public:
  /// Listens at each address, such as 127.0.0.1 or ::1, at one port; port 0 takes any that is free. An address of IPv6
  /// is left out on a machine without it when there are others.
  static Result<std::unique_ptr<Server>> open(const std::vector<std::string>& addresses, uint16_t port, Service service,
                                              const Limits& limits = {});
  virtual ~Server() = default;
  virtual uint16_t port() const = 0;
  /// Serves until stop(), or until the program is interrupted or asked to end; then every connection is closed.
  virtual void run() = 0;
  /// From any thread.
  virtual void stop() = 0;
};

}  // namespace sightfall::serve
