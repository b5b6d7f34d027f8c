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

Answer Client::follow(uint16_t port, std::string_view target) {
  send(handshake_text(port, target));
  return read();
}

Frame Client::read_frame(std::chrono::milliseconds time) {
  const auto has = [&](size_t bytes) {
    while (buffer_.size() < bytes)
      if (!more(time)) return false;
    return true;
  };
  const auto byte = [&](size_t at) { return static_cast<unsigned char>(buffer_[at]); };
  if (!has(2)) return {};
  const size_t first = byte(1), wide = first == 126 ? 2 : first == 127 ? 8 : 0;
  if (!has(2 + wide)) return {};
  size_t length = wide == 0 ? first : 0;
  for (size_t i = 0; i < wide; ++i) length = length << 8 | byte(2 + i);
  if (!has(2 + wide + length)) return {};
  Frame frame{byte(0) & 0xF, buffer_.substr(2 + wide, length)};
  buffer_.erase(0, 2 + wide + length);
  return frame;
}

int Frame::close_code() const {
  if (opcode != kClose || payload.size() < 2) return 0;
  return static_cast<unsigned char>(payload[0]) << 8 | static_cast<unsigned char>(payload[1]);
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

std::string handshake_text(uint16_t port, std::string_view target, std::string_view headers) {
  std::string all(headers);
  if (headers.find("Origin:") == std::string_view::npos)
    all += "Origin: http://localhost:" + std::to_string(port) + "\r\n";
  if (headers.find("Sec-WebSocket-Version:") == std::string_view::npos) all += "Sec-WebSocket-Version: 13\r\n";
  if (headers.find("Sec-WebSocket-Key:") == std::string_view::npos)
    all += "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n";
  return request_text(port, "GET", target, all + "Upgrade: websocket\r\nConnection: keep-alive, Upgrade\r\n");
}

std::string frame_text(int first, std::string_view payload) {
  constexpr std::string_view kMask = "\x12\x34\x56\x78";
  std::string text(1, static_cast<char>(first));
  if (payload.size() < 126) {
    text += static_cast<char>(0x80 | payload.size());
  } else {
    text += static_cast<char>(0x80 | 126);
    text += static_cast<char>(payload.size() >> 8);
    text += static_cast<char>(payload.size());
  }
  text += kMask;
  for (size_t i = 0; i < payload.size(); ++i) text += static_cast<char>(payload[i] ^ kMask[i % kMask.size()]);
  return text;
}

Answer ask(uint16_t port, std::string_view method, std::string_view target, std::string_view headers,
           std::string_view body) {
  Client client(port);
  if (!client.connected()) return {};
  client.send(request_text(port, method, target, headers, body));
  return client.read(method == "HEAD");
}

bool answered_soon(uint16_t port) {
  const auto began = std::chrono::steady_clock::now();
  return ask(port, "GET", "/").status == 200 && std::chrono::steady_clock::now() - began < std::chrono::seconds(2);
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
