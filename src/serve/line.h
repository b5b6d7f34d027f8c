// SPDX-License-Identifier: GPL-3.0-or-later
// One connection as bytes, messages and times, so that what is said on it is decided without sockets.
//   Threads  the serving one
//   Promise  what is handed in is called back later, never at once, and not at all after close()
//   Checked  http_test.cpp through sockets.h; tests/fuzz/http_fuzz.cpp without sockets
#pragma once
#include <chrono>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace sightfall::serve {

struct Header;

class Line {
 public:
  using Came = std::function<void(std::string_view bytes)>;
  using Done = std::function<void(bool whole)>;

  Line() = default;
  Line(const Line&) = delete;
  Line& operator=(const Line&) = delete;
  virtual ~Line() = default;

  /// The addresses of the other end and of ours, such as 127.0.0.1 or ::1.
  virtual const std::string& peer() const = 0;
  virtual const std::string& local() const = 0;

  /// What comes next; no bytes: the other end says no more. One read at a time.
  virtual void read(Came came) = 0;
  /// Calls when the other end hangs up before it says anything more. Reads nothing.
  virtual void watch(std::function<void()> hung_up) = 0;
  /// One write at a time.
  virtual void write(std::string head, std::string body, Done done) = 0;
  /// Tells the other end that nothing more comes; false when it is gone.
  virtual bool end() = 0;
  virtual void close() = 0;

  /// Rings once, in place of what was set before.
  virtual void ring_after(std::chrono::milliseconds time, std::function<void()> ring) = 0;
  virtual void ring_no_more() = 0;

  /// Answers a handshake with these headers besides its own, and is a WebSocket from there on: write() sends one
  /// message of text, and read() ends once the other end leaves, says anything, or leaves a ping unanswered for another
  /// `ping`.
  virtual void become_web_socket(const std::string& key, const std::vector<Header>& headers,
                                 std::chrono::milliseconds ping, Done done) = 0;
};

}  // namespace sightfall::serve
