// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/http.h"

#include <algorithm>

#include "serve/session.h"
#include "serve/sockets.h"

namespace sightfall::serve {
namespace {

/// Closes the connection that was silent longest when there are too many.
class BoundedServer : public Server {
 public:
  BoundedServer(std::unique_ptr<Sockets> sockets, Service service, const Limits& limits)
      : sockets_{std::move(sockets)}, room_{std::move(service), limits, std::make_shared<Link>([this](Link::Work work) {
                                              sockets_->post(std::move(work));
                                            })} {}
  BoundedServer(const BoundedServer&) = delete;
  BoundedServer& operator=(const BoundedServer&) = delete;
  ~BoundedServer() override { room_.link->cut(); }

  uint16_t port() const override { return sockets_->port(); }

  void run() override {
    sockets_->run([this](std::shared_ptr<Line> line) { take(std::move(line)); }, [this] { close_all(); });
  }

  void stop() override { sockets_->stop(); }

 private:
  void take(std::shared_ptr<Line> line) {
    const auto of_address = static_cast<size_t>(std::count_if(
        room_.sessions.begin(), room_.sessions.end(), [&](const auto& one) { return one->peer() == line->peer(); }));
    if (of_address >= room_.limits.connections_of_one_address) {
      if (!make_room(&line->peer())) return;
    } else if (room_.sessions.size() >= room_.limits.connections && !make_room(nullptr)) {
      return;
    }
    (*room_.sessions.insert(std::make_shared<Session>(room_, std::move(line))).first)->await_request();
  }

  /// Closes the connection that was silent longest, of that address when one is given; false when all are served.
  bool make_room(const std::string* address) {
    std::shared_ptr<Session> silent;
    for (const auto& one : room_.sessions) {
      if (!one->waiting_since() || (address != nullptr && one->peer() != *address)) continue;
      if (silent == nullptr || *one->waiting_since() < *silent->waiting_since()) silent = one;
    }
    if (silent != nullptr) silent->close();
    return silent != nullptr;
  }

  void close_all() {
    const std::vector<std::shared_ptr<Session>> all(room_.sessions.begin(), room_.sessions.end());
    for (const auto& session : all) session->close();
  }

  const std::unique_ptr<Sockets> sockets_;
  Room room_;
};

}  // namespace

Result<std::unique_ptr<Server>> Server::open(const std::vector<std::string>& addresses, uint16_t port, Service service,
                                             const Limits& limits) {
  auto sockets = Sockets::open(addresses, port);
  if (!sockets) return tl::make_unexpected(sockets.error());
  return std::make_unique<BoundedServer>(std::move(*sockets), std::move(service), limits);
}

}  // namespace sightfall::serve
