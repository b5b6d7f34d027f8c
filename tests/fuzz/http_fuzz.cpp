// SPDX-License-Identifier: GPL-3.0-or-later
// Hostile bytes on a connection to the workbench, without sockets: whatever they are, what reaches a handler has passed
// the guard and leads nowhere, every answer is whole, and the connection ends. Each input is said three times: at once,
// byte by byte (which must make the same requests), and from a network without having paired.
#include <algorithm>
#include <array>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/check.h"
#include "file/json.h"
#include "file/utf8.h"
#include "serve/answers.h"
#include "serve/map_request.h"
#include "serve/session.h"
#include "serve/workbench.h"

namespace sightfall::serve {
namespace {

constexpr uint16_t kPort = 8246;
constexpr int kRings = 5;  ///< until a connection without its other end must have closed
constexpr std::array kStatuses{200, 304, 400, 401, 403, 404, 405, 413, 408, 431, 500, 503};

std::string small(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

bool is_text(std::string_view text) {
  while (!text.empty()) {
    const size_t length = file::character_length(text);
    if (length == 0 || file::is_control(text.substr(0, length))) return false;
    text.remove_prefix(length);
  }
  return true;
}

/// What is to be done on the serving thread.
class Loop {
 public:
  void post(std::function<void()> work) { waiting_.push_back(std::move(work)); }
  void run() {
    while (!waiting_.empty()) {
      const auto work = std::move(waiting_.front());
      waiting_.pop_front();
      work();
    }
  }

 private:
  std::deque<std::function<void()>> waiting_;
};

/// The status of an answer whose head and body go together.
int check_answer(const std::string& head, const std::string& body) {
  CHECK_EQ(head.starts_with("HTTP/1.1 "), true);
  const int status = std::stoi(head.substr(9));
  if (status == 100) return status;
  CHECK_EQ(std::count(kStatuses.begin(), kStatuses.end(), status), 1);
  CHECK_EQ(head.find("\r\n\r\n"), head.size() - 4);
  CHECK_LT(head.find("\r\nX-Content-Type-Options: nosniff\r\n"), head.size());
  const size_t length = head.find("\r\nContent-Length: ");
  if (!body.empty()) CHECK_EQ(std::stoul(head.substr(length + 18)), body.size());
  if (!body.empty() && head.find("application/json") != std::string::npos)
    CHECK_EQ(file::parse_json(body, "answer").has_value(), true);
  return status;
}

/// A connection whose other end says what it is fed.
class FedLine : public Line, public std::enable_shared_from_this<FedLine> {
 public:
  FedLine(Loop& loop, std::string local) : loop_{loop}, local_{std::move(local)} {}

  const std::string& peer() const override { return local_; }
  const std::string& local() const override { return local_; }
  void read(Came came) override {
    CHECK_EQ(came_ == nullptr, true);
    came_ = std::move(came);
  }
  void watch(std::function<void()> /*hung_up*/) override {}
  void write(std::string head, std::string body, Done done) override {
    if (!is_web_socket_) check_answer(head, body);
    later(std::move(done));
  }
  bool end() override { return true; }
  void close() override {
    closed_ = true;
    came_ = nullptr;
    ring_ = nullptr;
  }
  void ring_after(std::chrono::milliseconds /*time*/, std::function<void()> ring) override { ring_ = std::move(ring); }
  void ring_no_more() override { ring_ = nullptr; }
  void become_web_socket(const std::string& key, const std::vector<Header>& headers, std::chrono::milliseconds /*ping*/,
                         Done done) override {
    CHECK_EQ(key.size(), size_t{24});
    CHECK_LT(size_t{0}, headers.size());
    is_web_socket_ = true;
    later(std::move(done));
  }

  bool closed() const { return closed_; }
  bool is_web_socket() const { return is_web_socket_; }
  /// Whether it was read by somebody.
  bool feed(std::string_view bytes) {
    if (came_ == nullptr) return false;
    std::exchange(came_, nullptr)(is_web_socket_ ? std::string_view{} : bytes);
    return true;
  }
  void ring() {
    if (ring_ != nullptr) std::exchange(ring_, nullptr)();
  }

 private:
  void later(Done done) {
    loop_.post([self = shared_from_this(), done = std::move(done)] {
      if (!self->closed_) done(true);
    });
  }

  Loop& loop_;
  const std::string local_;
  Came came_;
  std::function<void()> ring_;
  bool is_web_socket_ = false, closed_ = false;
};

/// The wire's routes and the page's files; the routes are found but not followed.
struct House {
  House() { api.add_to(router); }
  Api api{"/nowhere", "/nowhere"};
  Router router;
  Pages pages;
};

House& house() {
  static House one;
  return one;
}

void check_target(const Target& target) {
  for (const std::string& segment : target.segments) {
    CHECK_EQ(segment.empty() || segment.front() == '.', false);
    CHECK_EQ(segment.find_first_of(std::string_view("/\\\0", 3)), std::string::npos);
    CHECK_EQ(is_text(segment), true);
  }
  for (const auto& [name, value] : target.values) CHECK_EQ(is_text(name) && is_text(value), true);
}

/// What the guard promises, said in other words.
void check_sender(const Request& request, bool network) {
  const std::string* host = request.header("Host");
  CHECK_EQ(host == nullptr, false);
  const std::string name = small(*host);
  CHECK_EQ(name == "localhost:8246" || name == "127.0.0.1:8246" || name == "[::1]:8246" ||
               (network && name == "192.168.1.20:8246"),
           true);
  const std::string* origin = request.header("Origin");
  CHECK_EQ(origin == nullptr || small(*origin) == "http://" + name, true);
  const bool reads = request.method == "GET" || request.method == "HEAD";
  CHECK_EQ(reads || request.header("X-Sightfall-Tab") != nullptr, true);
  const bool api = !request.target.segments.empty() && request.target.segments.front() == "api";
  CHECK_EQ(network && api && request.target.path() != "/api/pair", false);
}

/// The readers of what requests bring.
void read_what_it_brings(const Request& request) {
  for (const MapKind kind : {MapKind::kFootprints, MapKind::kTerrain}) {
    const auto map = read_map_request(kind, request.target);
    if (!map) continue;
    CHECK_EQ(map->file.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_."),
             std::string::npos);
    CHECK_EQ(map->file.starts_with('.'), false);
    for (const std::string& option : map->options) CHECK_EQ(option.starts_with("--"), true);
  }
  if (const auto body = file::parse_json(request.body, "request"); body && asked(*body).has_value())
    CHECK_EQ(body->as<file::Object>() == nullptr, false);
}

/// The requests that reached a handler when the bytes came in pieces of that length.
std::vector<std::string> said(std::string_view bytes, size_t piece, bool network) {
  std::vector<std::string> handled;
  Loop loop;
  Guard guard{{network, network ? std::vector<std::string>{"192.168.1.20"} : std::vector<std::string>{}}};
  guard.set_port(kPort);
  Limits limits;
  limits.header_bytes = 2048;
  const auto handle = [&](const Request& request, const Caller& caller) {
    check_target(request.target);
    check_sender(request, network);
    read_what_it_brings(request);
    handled.push_back(request.method + ' ' + request.target.path() + ' ' + request.body);
    if (request.target.path() == "/api/events")
      return caller.stream([] {}).send("hello", std::make_shared<std::string>("{}"));
    auto page = house().pages.find(request);
    caller.answer(page ? std::move(*page) : error_response(404, "nothing is called " + request.target.path()));
  };
  const auto link = std::make_shared<Link>([&](Link::Work work) { loop.post(std::move(work)); });
  Room room{{[&](const Request& head) { return admit(guard, house().router, head); }, handle, error_response,
             security_headers()},
            limits,
            link};
  const auto line = std::make_shared<FedLine>(loop, network ? "192.168.1.20" : "127.0.0.1");
  (*room.sessions.insert(std::make_shared<Session>(room, line)).first)->await_request();
  loop.run();
  while (!bytes.empty() && line->feed(bytes.substr(0, piece))) {
    bytes.remove_prefix(std::min(piece, bytes.size()));
    loop.run();
  }
  // Then the other end is gone, or silent: a WebSocket ends by its own ping.
  for (int i = 0; i < kRings && !line->closed(); ++i) {
    if (piece > 1 || line->is_web_socket())
      line->feed({});
    else
      line->ring();
    loop.run();
  }
  link->cut();
  CHECK_EQ(line->closed(), true);
  CHECK_EQ(room.sessions.size(), size_t{0});
  CHECK_EQ(room.bodies, size_t{0});
  return handled;
}

}  // namespace
}  // namespace sightfall::serve

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace sightfall::serve;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto handled = said(bytes, std::max<size_t>(2, size), false);
  CHECK_EQ(said(bytes, 1, false) == handled, true);
  said(bytes, std::max<size_t>(2, size), true);
  return 0;
}
