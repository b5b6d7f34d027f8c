// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/test_client.h"

#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>

namespace sightfall::serve::testing {
namespace {

constexpr std::chrono::seconds kPatience{20};

std::string small(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

int connected_to(uint16_t port, bool six) {
  const int made = socket(six ? AF_INET6 : AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in four{};
  four.sin_family = AF_INET;
  four.sin_port = htons(port);
  four.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  sockaddr_in6 long_one{};
  long_one.sin6_family = AF_INET6;
  long_one.sin6_port = htons(port);
  long_one.sin6_addr = in6addr_loopback;
  const auto* address = six ? reinterpret_cast<const sockaddr*>(&long_one) : reinterpret_cast<const sockaddr*>(&four);
  if (connect(made, address, six ? sizeof long_one : sizeof four) == 0) return made;
  ::close(made);
  return -1;
}

}  // namespace

Client::Client(uint16_t port, bool six) : socket_{connected_to(port, six)} {}

Client::Client(Client&& other) noexcept
    : socket_{std::exchange(other.socket_, -1)}, buffer_{std::move(other.buffer_)} {}

Client::~Client() {
  if (socket_ >= 0) ::close(socket_);
}

bool Client::send(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<size_t>(sent));
  }
  return true;
}

bool Client::more(std::chrono::milliseconds time) {
  pollfd one{socket_, POLLIN, 0};
  if (poll(&one, 1, static_cast<int>(time.count())) != 1) return false;
  std::array<char, 65536> piece{};
  const ssize_t came = recv(socket_, piece.data(), piece.size(), 0);
  if (came > 0) buffer_.append(piece.data(), static_cast<size_t>(came));
  return came > 0;
}

Answer Client::read(bool head) {
  size_t end = std::string::npos;
  while ((end = buffer_.find("\r\n\r\n")) == std::string::npos)
    if (!more(kPatience)) return {};
  Answer answer;
  answer.status = std::stoi(buffer_.substr(buffer_.find(' ') + 1));
  for (size_t at = buffer_.find("\r\n") + 2; at < end + 2; at = buffer_.find("\r\n", at) + 2) {
    const std::string line = buffer_.substr(at, buffer_.find("\r\n", at) - at);
    const size_t colon = line.find(':');
    answer.headers[small(line.substr(0, colon))] = line.substr(colon + 2);
  }
  buffer_.erase(0, end + 4);
  const size_t length =
      head ? 0 : std::stoul(answer.headers.contains("content-length") ? answer.headers["content-length"] : "0");
  while (buffer_.size() < length)
    if (!more(kPatience)) return {};
  answer.body = buffer_.substr(0, length);
  buffer_.erase(0, length);
  return answer;
}

std::string Client::read_until(std::string_view text, std::chrono::milliseconds time) {
  const auto last = std::chrono::steady_clock::now() + time;
  while (buffer_.find(text) == std::string::npos) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(last - std::chrono::steady_clock::now());
    if (left.count() <= 0 || !more(left)) break;
  }
  return std::exchange(buffer_, {});
}

bool Client::ends_within(std::chrono::milliseconds time) {
  const auto last = std::chrono::steady_clock::now() + time;
  while (more(std::chrono::duration_cast<std::chrono::milliseconds>(last - std::chrono::steady_clock::now()))) {
    if (std::chrono::steady_clock::now() > last) return false;
  }
  return std::chrono::steady_clock::now() < last;
}

void Client::set_window(int bytes) { setsockopt(socket_, SOL_SOCKET, SO_RCVBUF, &bytes, sizeof bytes); }

std::string request_text(uint16_t port, std::string_view method, std::string_view target, std::string_view headers,
                         std::string_view body) {
  std::string text = std::string(method) + " " + std::string(target) + " HTTP/1.1\r\n";
  if (headers.find("Host:") == std::string_view::npos) text += "Host: localhost:" + std::to_string(port) + "\r\n";
  text += headers;
  if (!body.empty()) text += "Content-Length: " + std::to_string(body.size()) + "\r\n";
  return text + "\r\n" + std::string(body);
}

Answer ask(uint16_t port, std::string_view method, std::string_view target, std::string_view headers,
           std::string_view body) {
  Client client(port);
  if (!client.connected()) return {};
  client.send(request_text(port, method, target, headers, body));
  return client.read(method == "HEAD");
}

Running::Running(Service service, const Limits& limits) {
  auto opened = Server::open({"127.0.0.1", "::1"}, 0, std::move(service), limits);
  if (!opened) throw std::runtime_error(to_line(opened.error()));
  server_ = std::move(*opened);
  thread_ = std::thread([this] { server_->run(); });
}

Running::~Running() {
  server_->stop();
  thread_.join();
}

Service service_of(std::function<void(Request, Caller)> handle, size_t largest_body) {
  return {[largest_body](const Request&) {
            return Admission{std::nullopt, largest_body};
          },
          std::move(handle),
          [](int status, const std::string& text) {
            return Response{status, {}, text};
          },
          {{"X-Every", "answer"}}};
}

}  // namespace sightfall::serve::testing
