// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/sockets.h"

#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/websocket/rfc6455.hpp>
#include <boost/beast/websocket/stream.hpp>
#include <csignal>
#include <optional>

#include "serve/http.h"

namespace sightfall::serve {
namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;
namespace websocket = boost::beast::websocket;
using asio::ip::tcp;
using Fault = boost::system::error_code;

constexpr size_t kPiece = size_t{16} << 10;
/// For the two ends of a WebSocket to take leave.
constexpr std::chrono::milliseconds kLeaveTime{5'000};
/// Until connections are taken again when the system had no room for one.
constexpr std::chrono::milliseconds kBreath{100};

/// One socket.
class TcpLine : public Line, public std::enable_shared_from_this<TcpLine> {
 public:
  explicit TcpLine(tcp::socket socket) : socket_{std::move(socket)}, timer_{socket_.get_executor()} {
    Fault ignored;
    socket_.set_option(tcp::no_delay(true), ignored);
    peer_ = socket_.remote_endpoint(ignored).address().to_string();
    local_ = socket_.local_endpoint(ignored).address().to_string();
  }

  const std::string& peer() const override { return peer_; }
  const std::string& local() const override { return local_; }

  void read(Came came) override {
    if (web_socket_) return read_message(std::move(came));
    socket_.async_read_some(asio::buffer(piece_),
                            [self = shared_from_this(), came = std::move(came)](Fault fault, size_t bytes) {
                              if (!self->closed_) came({self->piece_.data(), fault ? 0 : bytes});
                            });
  }

  void watch(std::function<void()> hung_up) override {
    socket_.async_wait(tcp::socket::wait_read, [self = shared_from_this(), hung_up = std::move(hung_up)](Fault fault) {
      Fault ignored;
      if (!fault && !self->closed_ && self->socket_.available(ignored) == 0) hung_up();
    });
  }

  void write(std::string head, std::string body, Done done) override {
    head_ = std::move(head);
    body_ = std::move(body);
    auto then = [self = shared_from_this(), done = std::move(done)](Fault fault, size_t) {
      if (!self->closed_) done(!fault);
    };
    if (web_socket_) return web_socket_->async_write(asio::buffer(body_), std::move(then));
    asio::async_write(socket_, std::array{asio::buffer(head_), asio::buffer(body_)}, std::move(then));
  }

  bool end() override {
    Fault fault;
    socket_.shutdown(tcp::socket::shutdown_send, fault);
    return !fault;
  }

  void close() override {
    closed_ = true;
    Fault ignored;
    socket_.close(ignored);
    ring_no_more();
  }

  void ring_after(std::chrono::milliseconds time, std::function<void()> ring) override {
    timer_.expires_after(time);
    timer_.async_wait([self = shared_from_this(), ring = std::move(ring), mine = ++alarm_](Fault fault) {
      if (!fault && mine == self->alarm_) ring();
    });
  }

  void ring_no_more() override {
    ++alarm_;
    timer_.cancel();
  }

  void become_web_socket(const std::string& key, const std::vector<Header>& headers, std::chrono::milliseconds ping,
                         Done done) override {
    web_socket_.emplace(socket_);
    web_socket_->set_option(websocket::stream_base::timeout{kLeaveTime, 2 * ping, true});  // pings at half the time
    web_socket_->set_option(websocket::stream_base::decorator([headers](websocket::response_type& response) {
      response.set(http::field::server, "sightfall");
      for (const Header& header : headers) response.insert(header.name, header.value);
    }));
    web_socket_->read_message_max(kPiece);
    web_socket_->auto_fragment(false);
    http::request<http::empty_body> handshake{http::verb::get, "/", 11};
    handshake.set(http::field::host, local_);
    handshake.set(http::field::upgrade, "websocket");
    handshake.set(http::field::connection, "upgrade");
    handshake.set(http::field::sec_websocket_key, key);
    handshake.set(http::field::sec_websocket_version, "13");
    web_socket_->async_accept(handshake, [self = shared_from_this(), done = std::move(done)](Fault fault) {
      if (!self->closed_) done(!fault);
    });
  }

 private:
  /// Nothing is to be said here: who says something is told so, and that was all.
  void read_message(Came came) {
    web_socket_->async_read_some(
        asio::buffer(piece_), [self = shared_from_this(), came = std::move(came)](Fault fault, size_t) {
          if (self->closed_) return;
          if (fault) return came({});
          self->web_socket_->async_close({websocket::close_code::policy_error, "found a message; nothing is read here"},
                                         [self, came](Fault) {
                                           if (!self->closed_) came({});
                                         });
        });
  }

  tcp::socket socket_;
  std::optional<websocket::stream<tcp::socket&, false>> web_socket_;
  asio::steady_timer timer_;
  std::string peer_, local_, head_, body_;
  std::array<char, kPiece> piece_{};
  std::uint64_t alarm_ = 0;
  bool closed_ = false;
};

class AsioSockets : public Sockets {
 public:
  Result<void> listen(const std::vector<std::string>& addresses, uint16_t port) {
    for (const std::string& text : addresses) {
      Fault fault;
      const auto address = asio::ip::make_address(text, fault);
      if (fault)
        return failure(ErrorKind::kRequest, "found \"" + text + "\"; allowed: an address such as 192.168.1.20 or ::1");
      const tcp::endpoint end(address, port_ != 0 ? port_ : port);
      tcp::acceptor acceptor(io_);
      if (!(fault = opened(acceptor, end))) {
        port_ = acceptor.local_endpoint().port();
        acceptors_.push_back(std::move(acceptor));
      } else if (!absent(address, fault)) {
        return failure(ErrorKind::kRequest,
                       text + " port " + std::to_string(end.port()) + " cannot be listened at: " + fault.message());
      }
    }
    if (acceptors_.empty()) return failure(ErrorKind::kRequest, "found no address of this machine");
    return {};
  }

  uint16_t port() const override { return port_; }

  void run(std::function<void(std::shared_ptr<Line>)> took, std::function<void()> ending) override {
    took_ = std::move(took);
    ending_ = std::move(ending);
    signals_.add(SIGINT);
    signals_.add(SIGTERM);
    signals_.async_wait([this](Fault fault, int) {
      if (!fault) end();
    });
    for (tcp::acceptor& acceptor : acceptors_) accept(acceptor);
    io_.run();
    // What other threads left meanwhile finds its connection closed.
    io_.restart();
    io_.poll();
    signals_.clear();
  }

  void post(std::function<void()> work) override { asio::post(io_, std::move(work)); }

  void stop() override {
    post([this] { end(); });
  }

 private:
  static Fault opened(tcp::acceptor& acceptor, const tcp::endpoint& end) {
    Fault fault;
    acceptor.open(end.protocol(), fault);
    if (!fault) acceptor.set_option(tcp::acceptor::reuse_address(true), fault);
    if (!fault && end.address().is_v6()) acceptor.set_option(asio::ip::v6_only(true), fault);
    if (!fault) acceptor.bind(end, fault);
    if (!fault) acceptor.listen(asio::socket_base::max_listen_connections, fault);
    return fault;
  }

  /// A machine without IPv6.
  static bool absent(const asio::ip::address& address, Fault fault) {
    return address.is_v6() && address.is_loopback() &&
           (fault == asio::error::address_family_not_supported || fault == boost::system::errc::address_not_available);
  }

  void accept(tcp::acceptor& acceptor) {
    acceptor.async_accept([this, &acceptor](Fault fault, tcp::socket socket) {
      if (fault == asio::error::operation_aborted) return;
      if (fault) return accept_later(acceptor);
      took_(std::make_shared<TcpLine>(std::move(socket)));
      accept(acceptor);
    });
  }

  void accept_later(tcp::acceptor& acceptor) {
    auto timer = std::make_shared<asio::steady_timer>(io_, kBreath);
    timer->async_wait([this, &acceptor, timer](Fault fault) {
      if (!fault) accept(acceptor);
    });
  }

  void end() {
    Fault ignored;
    for (tcp::acceptor& acceptor : acceptors_) acceptor.close(ignored);
    ending_();
    io_.stop();
  }

  asio::io_context io_{1};
  asio::signal_set signals_{io_};
  std::vector<tcp::acceptor> acceptors_;
  std::function<void(std::shared_ptr<Line>)> took_;
  std::function<void()> ending_;
  uint16_t port_ = 0;
};

}  // namespace

Result<std::unique_ptr<Sockets>> Sockets::open(const std::vector<std::string>& addresses, uint16_t port) {
  auto sockets = std::make_unique<AsioSockets>();
  if (auto listening = sockets->listen(addresses, port); !listening) return tl::make_unexpected(listening.error());
  return sockets;
}

}  // namespace sightfall::serve
