// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/http.h"

#include <algorithm>
#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/string.hpp>
#include <boost/beast/http.hpp>
#include <csignal>
#include <limits>
#include <sstream>
#include <unordered_set>

#include "serve/exchange.h"

namespace sightfall::serve {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using asio::ip::tcp;
using Fault = boost::system::error_code;
using Moment = std::chrono::steady_clock::time_point;

constexpr int kHttp11 = 11;
constexpr size_t kPiece = 4096;
/// What a refused sender may still send, so that it comes to read why: closing at once would take the answer back.
constexpr size_t kUnread = size_t{256} << 20;
constexpr std::chrono::milliseconds kUnreadTime{5'000};
/// Until connections are taken again when the system had no room for one.
constexpr std::chrono::milliseconds kBreath{100};

class Session;

/// What the sessions share.
struct Room {
  Room(Service the_service, const Limits& the_limits) : service{std::move(the_service)}, limits{the_limits} {}
  Room(const Room&) = delete;
  Room& operator=(const Room&) = delete;
  ~Room() { link->cut(); }

  const Service service;
  const Limits limits;
  asio::io_context io{1};
  const std::shared_ptr<Link> link =
      std::make_shared<Link>([this](Link::Work work) { asio::post(io, std::move(work)); });
  std::unordered_set<std::shared_ptr<Session>> sessions = {};
  size_t bodies = 0;  ///< bytes promised to requests that are not answered yet
};

/// One connection: requests after one another, or a stream at the end. Everything runs on the serving thread.
class Session : public Connection, public std::enable_shared_from_this<Session> {
 public:
  Session(Room& room, tcp::socket socket) : room_{room}, socket_{std::move(socket)}, timer_{room.io} {
    Fault ignored;
    socket_.set_option(tcp::no_delay(true), ignored);
    peer_ = socket_.remote_endpoint(ignored).address();
    local_ = socket_.local_endpoint(ignored).address();
  }

  const asio::ip::address& peer() const { return peer_; }
  /// Since when it has been silent, or slow with a head; nothing while it is served.
  std::optional<Moment> waiting_since() const { return waiting_ ? std::optional(since_) : std::nullopt; }

  void await_request() {
    wait();
    if (buffer_.size() > 0) return read_head();
    within(room_.limits.silent, [](Session& self) { self.close(); });
    socket_.async_read_some(buffer_.prepare(kPiece), [self = shared_from_this()](Fault fault, size_t bytes) {
      if (fault || self->closed_) return self->close();
      self->buffer_.commit(bytes);
      self->read_head();
    });
  }

  void close() override {
    if (std::exchange(closed_, true)) return;
    Fault ignored;
    socket_.close(ignored);
    ++alarm_;
    timer_.cancel();
    forget();
    if (channel_ != nullptr) std::exchange(channel_, nullptr)->close();
    room_.sessions.erase(shared_from_this());
  }

  void answer(std::uint64_t number, std::optional<Response> response) override {
    if (gone_ == nullptr || number != number_) return;
    send(response ? std::move(*response) : room_.service.fault(500, "no answer was given: our fault"), After::kNext);
  }

  void stream(std::uint64_t number, const std::shared_ptr<Channel>& channel) override {
    if (gone_ == nullptr || number != number_) return channel->close();
    forget();
    channel_ = channel;
    http::response<http::empty_body> head{http::status::ok, kHttp11};
    add_headers(head, {{"Content-Type", "text/event-stream"}, {"Cache-Control", "no-store"}});
    head.keep_alive(false);
    std::ostringstream text;
    text << head.base();
    read_on();
    write_events(text.str());
  }

  void flush() override {
    if (channel_ == nullptr || writing_) return;
    if (std::string text = channel_->take(); !text.empty()) write_events(std::move(text));
  }

 private:
  enum class After { kNext, kEnd };

  template <class Act>
  void within(std::chrono::milliseconds time, Act act) {
    timer_.expires_after(time);
    timer_.async_wait([self = shared_from_this(), act, mine = ++alarm_](Fault fault) {
      if (!fault && mine == self->alarm_) act(*self);
    });
  }

  /// Ends a read that takes too long; who waits for it then finds late_ set.
  void read_within(std::chrono::milliseconds time) {
    late_ = false;
    within(time, [](Session& self) {
      self.late_ = true;
      Fault ignored;
      self.socket_.cancel(ignored);
    });
  }

  void wait() {
    waiting_ = true;
    since_ = std::chrono::steady_clock::now();
  }

  void read_head() {
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(room_.limits.header_bytes));
    parser_->body_limit(std::numeric_limits<std::uint64_t>::max());  // until the head says what is asked
    read_within(room_.limits.header);
    http::async_read_header(socket_, buffer_, *parser_, [self = shared_from_this()](Fault fault, size_t) {
      if (!self->closed_) fault ? self->refuse_read(fault) : self->take_head();
    });
  }

  void take_head() {
    waiting_ = false;
    const auto& head = parser_->get();
    request_ = Request{std::string(head.method_string()), {}, {}, {}, local_.to_string()};
    for (const auto& field : head)
      request_.headers.push_back({std::string(field.name_string()), std::string(field.value())});
    auto target = parse_target({head.target().data(), head.target().size()});
    if (!target) return refuse(400, "found a path that is not plain");
    if (head.version() != kHttp11) return refuse(400, "found another version of HTTP; allowed: 1.1");
    if (head.count(http::field::host) != 1) return refuse(400, "found no Host, or several; needed is one");
    request_.target = std::move(*target);
    admit();
  }

  void admit() {
    Admission admission = room_.service.admit(request_);
    if (admission.refusal) return send(std::move(*admission.refusal), parser_->is_done() ? After::kNext : After::kEnd);
    if (parser_->is_done()) return handle();
    const size_t largest = admission.largest_body;
    const auto length = parser_->content_length();
    if (length && *length > largest)
      return refuse(413, "found a body of " + std::to_string(*length) + " bytes; allowed: " + std::to_string(largest));
    promised_ = length ? static_cast<size_t>(*length) : largest;
    room_.bodies += promised_;
    if (room_.bodies > room_.limits.bodies) return refuse(503, "found too many large requests at once; try again");
    parser_->body_limit(largest);
    read_within(room_.limits.body);
    if (!beast::iequals(parser_->get()[http::field::expect], "100-continue")) return read_body();
    text_ = "HTTP/1.1 100 Continue\r\n\r\n";
    asio::async_write(socket_, asio::buffer(text_), [self = shared_from_this()](Fault fault, size_t) {
      fault || self->closed_ ? self->close() : self->read_body();
    });
  }

  void read_body() {
    http::async_read(socket_, buffer_, *parser_, [self = shared_from_this()](Fault fault, size_t) {
      if (!self->closed_) fault ? self->refuse_read(fault) : self->handle();
    });
  }

  void handle() {
    request_.body = std::move(parser_->get().body());
    within(room_.limits.answer, [](Session& self) { self.refuse(503, "the answer took too long"); });
    const auto exchange =
        std::make_shared<Exchange>(room_.link, weak_from_this(), ++number_, room_.limits.stream_bytes);
    gone_ = exchange->gone();
    watch();
    room_.service.handle(std::move(request_), Caller(exchange));
  }

  /// While an answer is made: whether the other end hangs up.
  void watch() {
    socket_.async_wait(tcp::socket::wait_read, [self = shared_from_this(), mine = gone_](Fault fault) {
      Fault ignored;
      if (!fault && self->gone_ == mine && self->socket_.available(ignored) == 0) *mine = true;
    });
  }

  /// The request is no longer waited for.
  void forget() {
    if (gone_ != nullptr) *std::exchange(gone_, nullptr) = true;
    room_.bodies -= std::exchange(promised_, 0);
  }

  void refuse_read(Fault fault) {
    if (late_) return refuse(408, "the request came too slowly");
    if (fault == http::error::header_limit) return refuse(431, "found too large a head");
    if (fault == http::error::body_limit) return refuse(413, "found too large a body");
    const bool malformed = fault.category() == http::make_error_code(http::error::bad_method).category();
    if (!malformed || fault == http::error::end_of_stream || fault == http::error::partial_message) return close();
    refuse(400, "found no request of HTTP: " + fault.message());
  }

  void refuse(int status, const std::string& text) { send(room_.service.fault(status, text), After::kEnd); }

  template <class Message>
  void add_headers(Message& message, const std::vector<Header>& own) {
    for (const auto* headers : {&own, &room_.service.headers})
      for (const Header& header : *headers) message.insert(header.name, header.value);
  }

  void send(Response response, After after) {
    const bool keep = after == After::kNext && parser_->keep_alive();
    const bool head_alone = parser_->get().method() == http::verb::head;
    forget();
    waiting_ = false;
    answer_ = {static_cast<http::status>(response.status), kHttp11};
    add_headers(answer_, response.headers);
    if (answer_.result() != http::status::not_modified) answer_.content_length(response.body.size());
    answer_.keep_alive(keep);
    if (!head_alone) answer_.body() = std::move(response.body);
    within(room_.limits.write, [](Session& self) { self.close(); });
    http::async_write(socket_, answer_, [self = shared_from_this(), keep](Fault fault, size_t) {
      if (fault || self->closed_) return self->close();
      keep ? self->await_request() : self->end();
    });
  }

  /// Says that nothing more comes, and waits for the other end to have understood.
  void end() {
    Fault fault;
    socket_.shutdown(tcp::socket::shutdown_send, fault);
    if (fault) return close();
    wait();
    within(kUnreadTime, [](Session& self) { self.close(); });
    read_on();
  }

  /// What comes now is not read by anybody.
  void read_on() {
    socket_.async_read_some(asio::buffer(unread_), [self = shared_from_this()](Fault fault, size_t bytes) {
      self->unread_bytes_ += bytes;
      fault || self->closed_ || self->unread_bytes_ > kUnread ? self->close() : self->read_on();
    });
  }

  void write_events(std::string text) {
    writing_ = true;
    text_ = std::move(text);
    within(room_.limits.write, [](Session& self) { self.close(); });
    asio::async_write(socket_, asio::buffer(text_), [self = shared_from_this()](Fault fault, size_t) {
      if (fault || self->closed_) return self->close();
      self->writing_ = false;
      self->within(self->room_.limits.heartbeat, [](Session& quiet) { quiet.write_events(":\n\n"); });
      self->flush();
    });
  }

  Room& room_;
  tcp::socket socket_;
  asio::steady_timer timer_;
  asio::ip::address peer_, local_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  Request request_;
  http::response<http::string_body> answer_;
  std::string text_;
  std::uint64_t number_ = 0;                 ///< of the request
  std::shared_ptr<std::atomic<bool>> gone_;  ///< while an answer is waited for
  std::shared_ptr<Channel> channel_;
  std::array<char, kPiece> unread_{};
  size_t unread_bytes_ = 0, promised_ = 0;
  std::uint64_t alarm_ = 0;
  Moment since_;
  bool waiting_ = false, late_ = false, writing_ = false, closed_ = false;
};

/// Takes connections, and closes the one that was silent longest when there are too many.
class BeastServer : public Server {
 public:
  BeastServer(Service service, const Limits& limits) : room_{std::move(service), limits}, signals_{room_.io} {}

  Result<void> listen(const std::vector<std::string>& addresses, uint16_t port) {
    for (const std::string& text : addresses) {
      Fault fault;
      const auto address = asio::ip::make_address(text, fault);
      if (fault)
        return failure(ErrorKind::kRequest, "found \"" + text + "\"; allowed: an address such as 192.168.1.20 or ::1");
      const tcp::endpoint end(address, port_ != 0 ? port_ : port);
      tcp::acceptor acceptor(room_.io);
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

  void run() override {
    signals_.add(SIGINT);
    signals_.add(SIGTERM);
    signals_.async_wait([this](Fault fault, int) {
      if (!fault) close_all();
    });
    for (tcp::acceptor& acceptor : acceptors_) accept(acceptor);
    room_.io.run();
    // What other threads left meanwhile finds its connection closed.
    room_.io.restart();
    room_.io.poll();
    signals_.clear();
  }

  void stop() override {
    room_.link->post([this] { close_all(); });
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
      take(std::move(socket));
      accept(acceptor);
    });
  }

  void accept_later(tcp::acceptor& acceptor) {
    auto timer = std::make_shared<asio::steady_timer>(room_.io, kBreath);
    timer->async_wait([this, &acceptor, timer](Fault fault) {
      if (!fault) accept(acceptor);
    });
  }

  void take(tcp::socket socket) {
    const auto session = std::make_shared<Session>(room_, std::move(socket));
    const auto of_address = static_cast<size_t>(std::count_if(
        room_.sessions.begin(), room_.sessions.end(), [&](const auto& one) { return one->peer() == session->peer(); }));
    if (of_address >= room_.limits.connections_of_one_address) {
      if (!make_room(&session->peer())) return;
    } else if (room_.sessions.size() >= room_.limits.connections && !make_room(nullptr)) {
      return;
    }
    room_.sessions.insert(session);
    session->await_request();
  }

  /// Closes the connection that was silent longest, of that address when one is given; false when all are served.
  bool make_room(const asio::ip::address* address) {
    std::shared_ptr<Session> silent;
    for (const auto& one : room_.sessions) {
      if (!one->waiting_since() || (address != nullptr && one->peer() != *address)) continue;
      if (silent == nullptr || *one->waiting_since() < *silent->waiting_since()) silent = one;
    }
    if (silent != nullptr) silent->close();
    return silent != nullptr;
  }

  void close_all() {
    Fault ignored;
    for (tcp::acceptor& acceptor : acceptors_) acceptor.close(ignored);
    const std::vector<std::shared_ptr<Session>> all(room_.sessions.begin(), room_.sessions.end());
    for (const auto& session : all) session->close();
    room_.io.stop();
  }

  Room room_;
  asio::signal_set signals_;
  std::vector<tcp::acceptor> acceptors_;
  uint16_t port_ = 0;
};

}  // namespace

const std::string* Request::header(std::string_view name) const {
  const auto found = std::find_if(headers.begin(), headers.end(), [&](const Header& one) {
    return beast::iequals({one.name.data(), one.name.size()}, {name.data(), name.size()});
  });
  return found == headers.end() ? nullptr : &found->value;
}

Result<std::unique_ptr<Server>> Server::open(const std::vector<std::string>& addresses, uint16_t port, Service service,
                                             const Limits& limits) {
  auto server = std::make_unique<BeastServer>(std::move(service), limits);
  if (auto listening = server->listen(addresses, port); !listening) return tl::make_unexpected(listening.error());
  return server;
}

}  // namespace sightfall::serve
