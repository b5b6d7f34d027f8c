// SPDX-License-Identifier: GPL-3.0-or-later
// The system's connections as lines, on one thread.
//   Library  Boost.Asio for sockets and times, Boost.Beast for WebSockets (RFC 6455), only in sockets.cpp
//   Checked  http_test.cpp, http_attack_test.cpp
#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "serve/line.h"

namespace sightfall::serve {

class Sockets {
 public:
  /// As Server::open().
  static Result<std::unique_ptr<Sockets>> open(const std::vector<std::string>& addresses, uint16_t port);
  virtual ~Sockets() = default;
  virtual uint16_t port() const = 0;
  /// Takes connections until stop(), or until the program is interrupted or asked to end; then calls `ending`, which
  /// closes what is open.
  virtual void run(std::function<void(std::shared_ptr<Line>)> took, std::function<void()> ending) = 0;
  /// From any thread: what is to be done on that of run().
  virtual void post(std::function<void()> work) = 0;
  virtual void stop() = 0;
};

}  // namespace sightfall::serve
