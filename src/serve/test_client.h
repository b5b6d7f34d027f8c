// SPDX-License-Identifier: GPL-3.0-or-later
// For tests: a plain blocking client on sockets, which can also be as slow, as wrong and as many as an attacker.
#pragma once
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <thread>

#include "serve/http.h"

namespace sightfall::serve::testing {

struct Answer {
  int status = 0;                                   ///< 0: the connection was closed without one
  std::map<std::string, std::string> headers = {};  ///< names in small letters
  std::string body = {};
};

/// A frame of a WebSocket, RFC 6455, section 5.2.
struct Frame {
  int opcode = -1;  ///< -1: the connection was closed without one
  std::string payload = {};

  /// What a closing frame gives as its reason; 0: none.
  int close_code() const;
};

inline constexpr int kText = 0x1, kClose = 0x8, kPing = 0x9, kPong = 0xA;

class Client {
 public:
  explicit Client(uint16_t port, bool six = false);
  ~Client();
  Client(Client&& other) noexcept;
  Client(const Client&) = delete;
  Client& operator=(const Client&) = delete;

  bool connected() const { return socket_ >= 0; }
  /// Whether all of it could be sent.
  bool send(std::string_view bytes);
  /// The next answer; `head`: to a request without body in the answer.
  Answer read(bool head = false);
  /// Asks for events as a page at that port does, and takes the answer to its handshake.
  Answer follow(uint16_t port, std::string_view target = "/api/events");
  /// The next frame of a WebSocket.
  Frame read_frame(std::chrono::milliseconds time = std::chrono::seconds(20));
  /// What comes until the text has come, the time is over or the connection ends.
  std::string read_until(std::string_view text, std::chrono::milliseconds time = std::chrono::seconds(20));
  /// Whether the other end closes within the time, whatever it still sends.
  bool ends_within(std::chrono::milliseconds time);
  /// How many bytes the system takes for us before we read them.
  void set_window(int bytes);

 private:
  bool more(std::chrono::milliseconds time);

  int socket_ = -1;
  std::string buffer_;
};

/// A request as a browser at that port would send it.
std::string request_text(uint16_t port, std::string_view method, std::string_view target, std::string_view headers = {},
                         std::string_view body = {});

/// A handshake as a page at that port would send it: the key is that of RFC 6455, section 1.3.
std::string handshake_text(uint16_t port, std::string_view target, std::string_view headers = {});

/// A frame as a browser sends it, masked; `first` is its first byte: 0x80, the last of its message, and the opcode.
std::string frame_text(int first, std::string_view payload);

/// One request on a connection of its own.
Answer ask(uint16_t port, std::string_view method, std::string_view target, std::string_view headers = {},
           std::string_view body = {});

/// Whether an ordinary request is answered while others do their worst.
bool answered_soon(uint16_t port);

/// A server that runs on a thread of its own while this lives.
class Running {
 public:
  explicit Running(Service service, const Limits& limits = {});
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  uint16_t port() const { return server_->port(); }

 private:
  std::unique_ptr<Server> server_;
  std::thread thread_;
};

/// Takes every request and lets `handle` answer it; faults are their text.
Service service_of(std::function<void(Request, Caller)> handle, size_t largest_body = 1000);

}  // namespace sightfall::serve::testing
