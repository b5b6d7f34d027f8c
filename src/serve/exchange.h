// SPDX-License-Identifier: GPL-3.0-or-later
// What stands between a connection and who answers it from another thread.
//   Threads  every function of Link, Exchange and Channel from any thread; those of Connection on the serving one
//   Checked  http_test.cpp
#pragma once
#include <atomic>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "serve/http.h"

namespace sightfall::serve {

/// An event as it is sent: `{"event": NAME, "data": DATA}`.
std::string message_of(std::string_view event, std::string_view data);

/// One connection as it is seen from here.
class Connection {
 public:
  virtual ~Connection() = default;
  /// The answer to the request of that number, when it is still waited for. Nothing: it was forgotten.
  virtual void answer(std::uint64_t number, std::optional<Response> response) = 0;
  virtual void stream(std::uint64_t number, const std::shared_ptr<Channel>& channel) = 0;
  /// Events wait in the channel.
  virtual void flush() = 0;
  virtual void close() = 0;
};

/// The way to the serving thread; it leads nowhere once the server is gone.
class Link {
 public:
  using Work = std::function<void()>;
  explicit Link(std::function<void(Work)> post) : post_{std::move(post)} {}
  void post(Work work);
  void cut();

 private:
  std::mutex mutex_;
  std::function<void(Work)> post_;
};

/// One request that waits for its answer. The last who lets go of it without an answer has forgotten it.
class Exchange {
 public:
  Exchange(std::shared_ptr<Link> link, std::weak_ptr<Connection> connection, std::uint64_t number, size_t stream_bytes)
      : link_{std::move(link)}, connection_{std::move(connection)}, number_{number}, stream_bytes_{stream_bytes} {}
  Exchange(const Exchange&) = delete;
  Exchange& operator=(const Exchange&) = delete;
  ~Exchange();

  void answer(std::optional<Response> response);
  std::shared_ptr<Channel> stream(std::function<void()> closed);
  const std::shared_ptr<std::atomic<bool>>& gone() const { return gone_; }

 private:
  const std::shared_ptr<Link> link_;
  const std::weak_ptr<Connection> connection_;
  const std::uint64_t number_;
  const size_t stream_bytes_;
  const std::shared_ptr<std::atomic<bool>> gone_ = std::make_shared<std::atomic<bool>>(false);
  std::atomic<bool> answered_{false};
};

/// The events that wait for one reader.
class Channel {
 public:
  Channel(std::shared_ptr<Link> link, std::weak_ptr<Connection> connection, size_t most, std::function<void()> closed)
      : link_{std::move(link)}, connection_{std::move(connection)}, most_{most}, closed_{std::move(closed)} {}

  void send(std::string_view event, const std::shared_ptr<const std::string>& data);
  /// The next message to the reader; nothing until the connection is told of more.
  std::optional<std::string> take();
  /// Nobody reads any longer.
  void close();

 private:
  struct Event {
    std::string name;
    std::shared_ptr<const std::string> data;
  };

  const std::shared_ptr<Link> link_;
  const std::weak_ptr<Connection> connection_;
  const size_t most_;
  std::function<void()> closed_;
  std::mutex mutex_;
  std::deque<Event> waiting_;
  size_t bytes_ = 0;
  bool told_ = false;  ///< the connection takes what waits
  bool open_ = true;
};

}  // namespace sightfall::serve
